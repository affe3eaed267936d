import type { DecideDeviation, Deviation } from '@curebook/contract/deviations'
import { refuseEnded, replaceIn } from './ending.service.ts'
import { voidTest } from './ending.repository.ts'
import { rowsSql, type RowsSql } from '#platform/sql-rows'
import { loadTests } from './test-record.repository.ts'
import type { TestRecord } from './test-record.ts'
import { topicsOf } from './topics.ts'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { ledgerContentOf } from '#platform/ledger-content'
import { AppError, invalidField, notFound } from '#platform/problem'
import { newId } from '#platform/uuid'
import { findLoadOf } from './load-holds.repository.ts'
import { lockLoad } from './loads.repository.ts'
import { findDeviations } from './deviations.repository.ts'
import { lockDeviation } from './linked-deviations.repository.ts'
import { refuseWaiting, release } from './release.ts'
import type { SettleContext } from './settle.ts'
import { waitingUnder } from './waiting.ts'

export type DeviationsService = ReturnType<typeof createDeviationsService>

/** What went otherwise than the method asks: listed, and decided once by a manager or engineer. */
export function createDeviationsService({ laboratory, methods, build }: { laboratory: Laboratory } & SettleContext) {
  function list(
    actor: Actor,
    query: { open: boolean; designId: string | null },
  ): Promise<{ items: Deviation[]; next: null }> {
    return laboratory.inLaboratorySql(actor, async (raw) => ({
      items: await findDeviations(rowsSql(raw), query),
      next: null,
    }))
  }

  function decide(actor: Actor, deviationId: string, input: DecideDeviation): Promise<Deviation> {
    return laboratory.inLaboratorySql(actor, async (raw) => {
      const sql = rowsSql(raw)
      await lockDeviation(sql, deviationId)
      // Readings of a load come under the load's lock, as those of a test come under the test's.
      const loadId = await findLoadOf(sql, deviationId)
      if (loadId) await lockLoad(sql, loadId)
      const [deviation] = await findDeviations(sql, { id: deviationId })
      if (!deviation) throw notFound('deviation')
      if (await isRepeated(sql, deviationId, input)) return deviation
      refuseDecided(deviation, input)
      refuseOther(deviation, input)
      // With the spare that takes its place, in one order for all: whoever replaces it at this moment holds both too.
      const spare = input.kind === 'repeat' && input.spareTestId ? [input.spareTestId] : []
      const [test] = deviation.testId ? await loadTests(sql, [deviation.testId, ...spare], { lock: true }) : []
      // Under the test's lock alone: an act on it may have closed this one while it was waited for.
      const [now] = test ? await findDeviations(sql, { id: deviationId }) : []
      if (now) refuseDecided(now, input)
      await act(sql, test, input)
      refuseWaiting(input, (await waitingUnder(sql, [deviationId])).get(deviationId), test !== undefined)
      const row = {
        labId: actor.labId,
        id: input.id,
        deviationId,
        kind: input.kind,
        reason: input.reason,
        byId: actor.membershipId,
        at: sql.at,
      }
      await sql.rows(
        `insert into deviation_event (lab_id, id, deviation_id, kind, reason, by_id, at) values ($1::uuid, $2::uuid, $3::uuid, $4, $5, $6::uuid, $7::timestamptz) on conflict (lab_id, id) do nothing`,
        [row.labId, row.id, row.deviationId, row.kind, row.reason, row.byId, row.at],
      )
      const settled =
        input.kind === 'release' ? await release(sql, { methods, build }, deviationId, test, input) : undefined
      sql.record({
        action: 'deviation:decide',
        subjectKind: 'deviation',
        subjectId: deviationId,
        projectId: test?.projectId ?? null,
        topics: [
          'deviations',
          ...(loadId ? ['loads'] : []),
          ...(test ? topicsOf(test, settled?.casts) : []),
          ...deviation.specimens.flatMap(({ testId, designId }) => topicsOf({ id: testId, designId })),
        ],
        content: { kind: input.kind, reason: input.reason },
        rows: [ledgerContentOf('deviation_event', row), ...(settled?.rows ?? [])],
      })
      return (await findDeviations(sql, { id: deviationId }))[0]!
    })
  }

  return { list, decide }
}

/** Whether this very decision stands already: sent again after a lost answer it is the same one. */
async function isRepeated(sql: RowsSql, deviationId: string, { id, kind, reason }: DecideDeviation): Promise<boolean> {
  const [stored] = await sql.rows<{ deviationId: string; kind: string; reason: string }>(
    'select deviation_id as "deviationId", kind, reason from deviation_event where lab_id = $1::uuid and id = $2::uuid',
    [sql.actor.labId, id],
  )
  return stored?.deviationId === deviationId && stored.kind === kind && stored.reason === reason
}

function refuseDecided(now: Deviation, input: DecideDeviation): void {
  if (!now.decision) return
  throw new AppError(
    'conflict',
    now.decision.by
      ? `${now.decision.by.name} has decided this already: ${now.decision.kind}, “${now.decision.reason}”.`
      : `This was closed by itself: “${now.decision.reason}”.`,
    { extra: { stored: now, sent: input } },
  )
}

/** A decision is on what was read: an excursion that has grown meanwhile is another thing to accept. */
function refuseOther(now: Deviation, input: DecideDeviation): void {
  if (input.shown === undefined || input.shown === now.text) return
  throw new AppError(
    'changed-meanwhile',
    `This deviation says something else by now: “${now.text}” Look at it, then decide.`,
    { extra: { stored: now, sent: input } },
  )
}

async function act(sql: RowsSql, test: TestRecord | undefined, input: DecideDeviation): Promise<void> {
  if (input.kind === 'accept' || input.kind === 'release' || input.kind === 'exclude') return
  if (!test) throw invalidField('kind', 'Only a specimen can be voided or repeated. Decide otherwise, with a reason.')
  if (input.kind === 'repeat' && !input.spareTestId)
    throw invalidField('spareTestId', 'Choose the spare that takes its place.')
  refuseEnded(test)
  const told = {
    eventAt: sql.at,
    eventFrom: 'now' as const,
    sentAt: sql.at,
    receivedAt: sql.at,
    offsetMs: 0,
    effectiveAt: sql.at,
    note: input.reason,
  }
  const row = await voidTest(sql, test, { id: newId(), reason: input.reason, told })
  sql.record({
    action: 'test:void',
    subjectKind: 'test_event',
    subjectId: test.id,
    projectId: test.projectId,
    topics: topicsOf(test),
    content: { reason: input.reason },
    rows: [row],
  })
  if (input.kind === 'repeat') await replaceIn(sql, test.id, { spareTestId: input.spareTestId!, reason: input.reason })
}
