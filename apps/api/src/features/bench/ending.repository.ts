import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import { newId } from '#platform/uuid'
import type { Told } from './event-time.ts'
import type { RowsSql } from '#platform/sql-rows'
import { insertStepEvent } from './step-events.repository.ts'
import type { TestRecord } from './test-record.ts'

/** Ends a test: its readings and results stay, it takes part no more. @returns the row for the ledger */
export async function voidTest(
  sql: RowsSql,
  record: TestRecord,
  { id, reason, told }: { id: string; reason: string; told: Told },
): Promise<LedgerRow> {
  const row = await insertStepEvent(sql, { id, testId: record.id, stepKey: 'void', kind: 'void', told, note: reason })
  await setState(sql, record.id, 'void')
  return row
}

/** Of a specimen its batch while it is open; of a batch its specimen while nothing of it is done. One or none. */
export async function openCounterpart(sql: RowsSql, testId: string): Promise<readonly string[]> {
  const found = await sql.rows<{ id: string }>(
    `select other.id from test_event t
       join item_parent p on p.lab_id = t.lab_id and t.item_id in (p.child_id, p.parent_id)
       join item b on b.lab_id = p.lab_id and b.id = p.parent_id and b.kind = 'batch'
       join test_event other on other.lab_id = p.lab_id and other.id <> t.id and other.item_id in (p.child_id, p.parent_id)
       join test_now n on n.lab_id = other.lab_id and n.test_id = other.id
      where t.lab_id = $1::uuid and t.id = $2::uuid
        and (n.state = 'waiting' or (n.state = 'in-work' and other.item_id = b.id))
      limit 1`,
    [sql.actor.labId, testId],
  )
  return found.map(({ id }) => id)
}

/** Puts a spare into the place of a void specimen. @returns the row for the ledger */
export async function replaceTest(
  sql: RowsSql,
  { voided, spare, reason }: { voided: TestRecord; spare: TestRecord; reason: string },
): Promise<LedgerRow> {
  const row = {
    labId: sql.actor.labId,
    id: newId(),
    voidTestId: voided.id,
    spareTestId: spare.id,
    reason,
    byId: sql.actor.membershipId,
    at: sql.at,
  }
  await sql.rows(
    `insert into test_replacement (lab_id, id, void_test_id, spare_test_id, reason, by_id, at) values ($1::uuid, $2::uuid, $3::uuid, $4::uuid, $5, $6::uuid, $7::timestamptz)`,
    [row.labId, row.id, row.voidTestId, row.spareTestId, row.reason, row.byId, row.at],
  )
  await setState(sql, voided.id, 'replaced')
  return ledgerContentOf('test_replacement', row)
}

async function setState(sql: RowsSql, testId: string, state: 'void' | 'replaced'): Promise<void> {
  await sql.rows('update test_now set state = $3, counts = false where lab_id = $1::uuid and test_id = $2::uuid', [
    sql.actor.labId,
    testId,
    state,
  ])
  await sql.rows('delete from due where lab_id = $1::uuid and test_id = $2::uuid', [sql.actor.labId, testId])
}

/** The test whose place this spare took, or null. */
export async function replacedBySpare(sql: RowsSql, spareTestId: string): Promise<string | null> {
  const [found] = await sql.rows<{ id: string }>(
    'select void_test_id as id from test_replacement where lab_id = $1::uuid and spare_test_id = $2::uuid',
    [sql.actor.labId, spareTestId],
  )
  return found?.id ?? null
}
