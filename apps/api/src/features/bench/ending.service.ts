import type { ReplaceTest, VoidTest } from '@curebook/contract/bench'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { newId } from '#platform/uuid'
import { openCounterpart, replacedBySpare, replaceTest, voidTest } from './ending.repository.ts'
import { tellTime } from './event-time.ts'
import { rowsSql, type RowsSql } from '#platform/sql-rows'
import { findStepEvents } from './step-events.repository.ts'
import { loadTests } from './test-record.repository.ts'
import { topicsOf } from './topics.ts'
import type { TestRecord } from './test-record.ts'

export type EndingService = ReturnType<typeof createEndingService>

/** Voids specimens and puts spares in their place; nothing that was read is lost. */
export function createEndingService({ laboratory }: { laboratory: Laboratory }) {
  function voidOne(actor: Actor, testId: string, input: VoidTest): Promise<void> {
    return laboratory.inLaboratorySql(actor, async (raw) => {
      const sql = rowsSql(raw)
      // With what may be lost along with it, in one order for all: a reading of the batch holds both too.
      const [record] = await loadTests(sql, [testId, ...(await openCounterpart(sql, testId))], { lock: true })
      if (!record) throw notFound('test')
      if ((await findStepEvents(sql, [input.id])).some((event) => event.testId === testId && event.kind === 'void'))
        return
      refuseEnded(record)
      const told = tellTime({ ...input.time, note: input.time.note ?? input.reason }, sql.at)
      const rows = [await voidTest(sql, record, { id: input.id, reason: input.reason, told })]
      // A batch is cast into one specimen: neither waits for work any more when the other is lost before casting.
      const [counterpart] = await loadTests(sql, await openCounterpart(sql, testId), { lock: true })
      if (counterpart) rows.push(await voidTest(sql, counterpart, { id: newId(), reason: input.reason, told }))
      sql.record({
        action: 'test:void',
        subjectKind: 'test_event',
        subjectId: testId,
        projectId: record.projectId,
        topics: [...topicsOf(record), ...(counterpart ? [`test:${counterpart.id}`] : [])],
        content: { reason: input.reason },
        rows,
      })
    })
  }

  function replace(actor: Actor, voidedTestId: string, input: ReplaceTest): Promise<void> {
    return laboratory.inLaboratorySql(actor, async (raw) => replaceIn(rowsSql(raw), voidedTestId, input))
  }

  return { void: voidOne, replace }
}

/** The replacement itself, for a decision that voids and repeats in one transaction. */
export async function replaceIn(
  sql: RowsSql,
  voidedTestId: string,
  { spareTestId, reason }: ReplaceTest,
): Promise<void> {
  const [voided, spare] = await loadTests(sql, [voidedTestId, spareTestId], { lock: true })
  if (!voided) throw notFound('test')
  if (!spare) throw invalidField('spareTestId', 'There is no such spare in this laboratory.')
  const before = await replacedBySpare(sql, spareTestId)
  if (before === voidedTestId) return
  if (before)
    throw invalidField(
      'spareTestId',
      `${spare.label} (${spare.code}) already stands in another’s place. Choose another spare.`,
    )
  if (voided.state !== 'void')
    throw new AppError('wrong-state', `${voided.label} (${voided.code}) is not void. Void it first, with the reason.`)
  if (spare.purpose !== 'spare') throw invalidField('spareTestId', `${spare.label} (${spare.code}) is no spare.`)
  if (spare.state === 'void' || spare.state === 'replaced')
    throw invalidField('spareTestId', `${spare.label} (${spare.code}) is void itself. Choose another spare.`)
  if (spare.mixId !== voided.mixId || spare.methodKey !== voided.methodKey)
    throw invalidField(
      'spareTestId',
      `${spare.label} (${spare.code}) is of another content or test. Choose a spare of the same.`,
    )
  const row = await replaceTest(sql, { voided, spare, reason })
  sql.record({
    action: 'test:replace',
    subjectKind: 'test_event',
    subjectId: voided.id,
    projectId: voided.projectId,
    topics: [...topicsOf(voided), `test:${spare.id}`],
    content: { spare: spare.id, reason },
    rows: [row],
  })
}

export function refuseEnded(record: TestRecord): void {
  if (record.state === 'void' || record.state === 'replaced')
    throw new AppError('wrong-state', `${record.label} (${record.code}) is void already.`)
}
