import type { TestView } from '@curebook/contract/bench'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { declaredReading } from '@curebook/trade/procedure/declared-reading'
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
import { batchTargets } from './batch-targets.ts'
import { deviationsOf, instrumentsFor, siblingsOf, testHead, type TestHead } from './test-view.repository.ts'
import { drawSourcesIn } from '#features/custody/draws.service'
import { dayOfInstant, notAuthorisedIn } from '#features/people/authorised.service'
import { faultsToday } from './instrument-faults.ts'
import { lastLoadChecks } from './machine-checks.repository.ts'
import { partsOn } from './machine-parts.repository.ts'
import { findObservations } from './observations.repository.ts'
import { waitingUnder } from './waiting.ts'
import { isWaiting } from './waiting-results.ts'
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
      ? batchTargets(sql, methods, head.relatedTestId, record.parameters)
      : {},
  ])
  const sources = record.form === 'batch' && record.revisionId ? await drawSourcesIn(sql, record.revisionId) : []
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
      steps: stepsOf(methods, method, record),
      windows: [...method.windows],
    },
    edition: { id: record.editionId, designation: record.designation, parameters: { ...record.parameters } },
    state: standing.state as TestView['state'],
    currentStep: standing.progress.current,
    nextAct: standing.progress.next && { stepKey: standing.progress.next.step, act: standing.progress.next.act },
    locks: locksOf(method, standing),
    targets,
    sources,
    relatedTestId: head.relatedTestId,
    batchOpen: head.batchOpen,
    specimen: record.form === 'batch' ? specimenOf(methods, head) : null,
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

/** Its steps; a weighing of the batch that was read at one of them all the same stands there, where it can be put right. */
function stepsOf(
  methods: readonly MethodDeclaration[],
  method: MethodDeclaration,
  { slots }: Pick<TestRecord, 'slots'>,
): MethodDeclaration['steps'][number][] {
  const { batchReadings } = method
  return method.steps.map((step) => {
    if (step.key !== batchReadings?.step) return step
    const own = batchReadings.keys.filter((key) => slots.some((slot) => slot.step === step.key && slot.key === key))
    const read = own.flatMap((key) => declaredReading(methods, method, { step: step.key, key }) ?? [])
    return read.length === 0 ? step : { ...step, readings: [...read, ...step.readings] }
  })
}

/** What is cast from a batch, and what it waits for. */
function specimenOf(
  methods: readonly MethodDeclaration[],
  { relatedMethodKey, relatedStepKey }: TestHead,
): TestView['specimen'] {
  const method = relatedMethodKey === null ? undefined : methodByKey(methods, relatedMethodKey)
  if (!method) return null
  const step = method.steps.find(({ key }) => key === relatedStepKey)
  return {
    methodKey: method.key,
    methodName: method.shortName,
    beside: method.place === 'panel',
    nextStep: step?.title ?? null,
  }
}

function locksOf(method: MethodDeclaration, standing: Standing): TestView['locks'] {
  const titleOf = (key: string) => method.steps.find((step) => step.key === key)?.title ?? key
  return standing.progress.steps
    .filter(({ key, lockedBy, state }) => lockedBy.length > 0 && (state !== 'done' || asksNothing(method, key)))
    .map(({ key, lockedBy }) => ({
      stepKey: key,
      sentence: `${lockedBy.map((other) => `“${titleOf(other)}”`).join(' and ')} must be done first, or its reading is lost for good.`,
    }))
}

/** Whether a step asks for no act and no reading: it counts as done, and something may be noted in it. */
function asksNothing(method: MethodDeclaration, key: string): boolean {
  const step = method.steps.find((one) => one.key === key)
  return step !== undefined && step.events.length === 0 && step.readings.every(({ optional }) => optional === true)
}

/** What waits for the set-up, or for a release, is no result yet; it is said here with the reason. One line a sentence. */
function unstoredRefusals(
  method: MethodDeclaration,
  standing: Standing,
  stored: TestView['results'],
): TestView['results'] {
  const waiting = standing.evaluation.refusals.filter(
    ({ code, key }) => code === 'missing-setup' || (isWaiting(code) && stored.every((result) => result.key !== key)),
  )
  return waiting.map(({ key, code, text }) => ({
    id: emptyId,
    key,
    label: method.results.find((result) => result.key === key)?.label ?? key,
    value: null,
    unit: null,
    displayDecimals: 2,
    choice: null,
    findings: null,
    refusal: { code, text },
  }))
}

/** Stands where nothing is stored that an id could name. */
const emptyId = '00000000-0000-0000-0000-000000000000'
