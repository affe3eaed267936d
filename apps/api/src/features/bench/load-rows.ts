import type { Load, PutIn } from '@curebook/contract/loads'
import type { BulkOutcome } from '@curebook/contract/schedule'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { standsIn } from '@curebook/trade/procedure/stay'
import type { RowsSql } from '#platform/sql-rows'
import { methodOf } from './settle.ts'

type Rows = PutIn['rows']
type Sorted = { readonly rows: Rows; readonly refused: BulkOutcome['rows'] }

/** Which of these can go into the load: those whose step is a stay in its kind. The others are refused with the reason. */
export async function rowsForIn(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  load: Load,
  rows: Rows,
): Promise<Sorted> {
  const found = await sql.rows<{ id: string; methodKey: string; label: string }>(
    'select id, method_key as "methodKey", label from test_event where lab_id = $1::uuid and id = any($2::uuid[])',
    [sql.actor.labId, rows.map(({ testId }) => testId)],
  )
  return sorted(rows, ({ testId, stepKey }) => {
    const test = found.find(({ id }) => id === testId)
    // An unknown test is refused by the confirmation itself.
    if (!test) return null
    const step = methodOf(methods, test.methodKey).steps.find(({ key }) => key === stepKey)
    if (step && standsIn(step, load.kind)) return null
    return `${test.label}: “${step?.title ?? stepKey}” is not done in ${load.kind === 'oven' ? 'an oven' : 'a bath'}.`
  })
}

/**
 * Which of these can be taken out: those inside. What was confirmed already goes on to be answered as before.
 * @param known ids of acts that stand already
 */
export function rowsForOut(load: Load, rows: Rows, known: ReadonlySet<string>): Sorted {
  return sorted(rows, ({ id, testId }) => {
    if (known.has(id)) return null
    const inside = load.specimens.find((specimen) => specimen.testId === testId)
    if (!inside) return 'This specimen is not in this load, or was taken out already.'
    return inside.endsHere
      ? null
      : `${inside.label} (${inside.code}) leaves the bath when its run starts: confirm that at the bench.`
  })
}

function sorted(rows: Rows, whyNot: (row: Rows[number]) => string | null): Sorted {
  const judged = rows.map((row) => ({ row, sentence: whyNot(row) }))
  return {
    rows: judged.flatMap(({ row, sentence }) => (sentence === null ? [row] : [])),
    refused: judged.flatMap(({ row, sentence }) =>
      sentence === null ? [] : [{ id: row.testId, outcome: 'refused' as const, sentence }],
    ),
  }
}
