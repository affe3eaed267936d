import type { TestView } from '@curebook/contract/bench'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { notFound } from '#platform/problem'
import { eventViews, readingViews } from './reading-view.ts'
import { resultBriefs } from './result-view.ts'
import { methodOf, type SettleContext } from './settle.ts'
import { rowsSql, type RowsSql } from '#platform/sql-rows'
import { standingOf, type Standing } from './standing.ts'
import { suspicionsAbout } from './suspicions.ts'
import type { TestRecord } from './test-record.ts'
import { loadTests } from './test-record.repository.ts'
import { batchTargets, deviationsOf, instrumentsFor, siblingsOf, testHead } from './test-view.repository.ts'
import { dayOfInstant, notAuthorisedIn } from '#features/people/authorised.service'
import { faultsToday } from './holds.ts'
import { lastLoadChecks } from './machine-checks.repository.ts'
import { partsOn } from './machine-parts.repository.ts'
import { findObservations } from './observations.repository.ts'
import { waitingUnder } from './waiting.ts'
import { toWindowState } from './window-view.ts'

export type TestViewService = ReturnType<typeof createTestViewService>

/** One test whole: what the bench page is drawn from. */
export function createTestViewService({
  laboratory,
  methods,
}: { laboratory: Laboratory } & Pick<SettleContext, 'methods'>) {
  function one(actor: Actor, testId: string): Promise<TestView> {
    return laboratory.inLaboratorySql(actor, async (raw) => {
      const sql = rowsSql(raw)
      const [record] = await loadTests(sql, [testId])
      if (!record) throw notFound('test')
      return viewOf(sql, methods, record)
    })
  }
  return { one }
}

async function viewOf(sql: RowsSql, methods: readonly MethodDeclaration[], record: TestRecord): Promise<TestView> {
  const method = methodOf(methods, record.methodKey)
  const now = sql.at.toISOString()
  const standing = standingOf(method, record, now)
  const kinds = [
    ...new Set(
      method.steps.flatMap(({ equipment, readings }) => [
        ...equipment,
        ...readings.flatMap(({ instrument }) => instrument ?? []),
      ]),
    ),
  ]
  const [head, siblings, readings, events, instruments, suspicions, deviations] = await Promise.all([
    testHead(sql, record.id),
    siblingsOf(sql, record),
    readingViews(sql, { testIds: [record.id] }),
    eventViews(sql, [record.id]),
    instrumentsFor(sql, kinds),
    suspicionsAbout(sql, method, record),
    deviationsOf(sql, record.id),
  ])
  const [results, targets] = await Promise.all([
    resultBriefs(sql, methods, [record.id, ...siblings.map(({ testId }) => testId)]),
    record.form === 'batch' && record.mixId && head.relatedTestId
      ? batchTargets(sql, record.mixId, head.relatedTestId)
      : {},
  ])
  const [waiting, today] = [
    await waitingUnder(
      sql,
      deviations.map(({ id }) => id),
    ),
    await faultsToday(sql, instruments),
  ]
  const machineIds = instruments.map(({ id }) => id)
  const [parts, loadChecks] = [await partsOn(sql, machineIds, sql.at), await lastLoadChecks(sql, machineIds)]
  const ending = events.find(({ kind }) => kind === 'void')
  const briefsOf = (id: string) => results.filter(({ testId }) => testId === id).map(({ testId: _, ...brief }) => brief)
  return {
    now,
    id: record.id,
    item: { id: record.itemId, code: record.code, label: record.label, form: record.form },
    design: { id: record.designId ?? '', name: head.designName ?? '', projectName: head.projectName ?? '' },
    emulsionPercent: head.emulsionPercent,
    purpose: record.purpose,
    method: {
      key: method.key,
      name: method.name,
      shortName: method.shortName,
      form: method.form,
      steps: [...method.steps],
      windows: [...method.windows],
    },
    edition: { id: record.editionId, designation: record.designation, parameters: { ...record.parameters } },
    state: standing.state as TestView['state'],
    currentStep: standing.progress.current,
    nextAct: standing.progress.next && { stepKey: standing.progress.next.step, act: standing.progress.next.act },
    locks: locksOf(method, standing),
    targets,
    relatedTestId: head.relatedTestId,
    instruments: instruments.map((instrument) => ({
      ...instrument,
      parts: (parts.get(instrument.id) ?? []).map(({ kind, lot, fittedAt }) => ({ kind, lot, fittedAt })),
      loadCheck: loadChecks.get(instrument.id) ?? null,
      fault: today.get(instrument.id) ?? null,
    })),
    notAuthorised: await notAuthorisedIn(sql, {
      membershipId: sql.actor.membershipId,
      name: sql.actor.name,
      activity: `method:${method.key}`,
      label: method.name,
      day: await dayOfInstant(sql, sql.at),
    }),
    readings,
    events: events.map(({ testId: _, ...event }) => event),
    observations: await findObservations(sql, { testIds: [record.id] }),
    windows: standing.windows.map(toWindowState),
    results: [...briefsOf(record.id), ...unstoredRefusals(method, standing, briefsOf(record.id))],
    suspicions,
    siblings: siblings.map((sibling) => ({ ...sibling, results: briefsOf(sibling.testId) })),
    deviations: deviations.map((deviation) => ({ ...deviation, waiting: waiting.get(deviation.id) ?? null })),
    voided: ending ? { reason: ending.note ?? '', by: ending.by, at: ending.eventAt } : null,
    assignee: head.assigneeId
      ? { membershipId: head.assigneeId, name: head.assigneeName!, initials: head.assigneeInitials! }
      : null,
  }
}

function locksOf(method: MethodDeclaration, standing: Standing): TestView['locks'] {
  const titleOf = (key: string) => method.steps.find((step) => step.key === key)?.title ?? key
  return standing.progress.steps
    .filter(({ lockedBy, state }) => lockedBy.length > 0 && state !== 'done')
    .map(({ key, lockedBy }) => ({
      stepKey: key,
      sentence: `${lockedBy.map((other) => `“${titleOf(other)}”`).join(' and ')} must be done first, or its reading is lost for good.`,
    }))
}

/** What waits for the set-up, or for a release, is no result yet; it is said here with the reason. One line a sentence. */
function unstoredRefusals(
  method: MethodDeclaration,
  standing: Standing,
  stored: TestView['results'],
): TestView['results'] {
  const waiting = standing.evaluation.refusals.filter(
    ({ code, key }) =>
      code === 'missing-setup' || (code === 'waits-for-release' && stored.every((result) => result.key !== key)),
  )
  return waiting.map(({ key, code, text }) => ({
    id: emptyId,
    key,
    label: method.results.find((result) => result.key === key)?.label ?? key,
    value: null,
    unit: null,
    displayDecimals: 2,
    refusal: { code, text },
  }))
}

/** Stands where nothing is stored that an id could name. */
const emptyId = '00000000-0000-0000-0000-000000000000'
