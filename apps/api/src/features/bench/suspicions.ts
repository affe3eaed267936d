import type { Suspicion } from '@curebook/contract/bench'
import type { MethodDeclaration, WeighedPair } from '@curebook/trade/procedure/declaration'
import { suspicionsOf, type WeighedTest } from '@curebook/trade/procedure/suspicions'
import { overdrawnByBatch } from '#features/custody/draws.service'
import type { RowsSql } from '#platform/sql-rows'
import type { TestRecord } from './test-record.ts'

const kinds = { swapped: 'swap', transposed: 'transposed', odd: 'odd' } as const

/**
 * What looks like a slip in a test's two weighings, seen among all specimens of the same method and design; of a batch, what
 * it weighed out of a bag beyond what that held.
 */
export async function suspicionsAbout(
  sql: RowsSql,
  method: MethodDeclaration,
  record: TestRecord,
): Promise<Suspicion[]> {
  if (record.form === 'batch')
    return (await overdrawnByBatch(sql, record.id)).map((found) => ({ kind: 'overdrawn', ...found }))
  if (!method.pair || !record.revisionId) return []
  const tests = await weighedTests(sql, method.pair, method.key, record.revisionId)
  const own = tests.find(({ id }) => id === record.id)
  if (!own) return []
  const codeOf = new Map(tests.map(({ id, code }) => [id, code]))
  return suspicionsOf(method.pair, own, tests).map((suspicion) => ({
    kind: kinds[suspicion.kind],
    sentence: suspicion.text,
    codes: [suspicion.test, ...('other' in suspicion ? [suspicion.other] : [])].flatMap((id) => codeOf.get(id) ?? []),
  }))
}

async function weighedTests(
  sql: RowsSql,
  pair: WeighedPair,
  methodKey: string,
  revisionId: string,
): Promise<readonly WeighedTest[]> {
  return sql.rows<WeighedTest & { [key: string]: unknown }>(
    `select t.id, i.code, coalesce(t.mix_id::text, '') as "group", a.value::text as before, b.value::text as after
       from test_event t
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id and n.state not in ('void', 'replaced')
       join slot_now a on a.lab_id = t.lab_id and a.test_id = t.id and a.step_key = $4 and a.key = $5 and a.repeat = 1
       join slot_now b on b.lab_id = t.lab_id and b.test_id = t.id and b.step_key = $6 and b.key = $7 and b.repeat = 1
      where t.lab_id = $1::uuid and t.design_revision_id = $2::uuid and t.method_key = $3
      order by t.label, i.code`,
    [sql.actor.labId, revisionId, methodKey, pair.before.step, pair.before.key, pair.after.step, pair.after.key],
  )
}
