import { methodByKey } from '@curebook/trade/methods/catalogue'
import { batchPortion } from '@curebook/trade/design/batch-portion'
import { batchSheet } from '@curebook/trade/design/batch-sheet'
import type { EditionParameters, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { RowsSql } from '#platform/sql-rows'

/** A specimen that is cast from a batch: its test, and the content that both are of. */
type CastRow = {
  readonly methodKey: string
  readonly own: string
  readonly moisture: string | null
  readonly emulsionPercent: string
  readonly waterPercent: string
  readonly fillerPercent: string
  readonly additivePercent: string
}

/**
 * What to weigh into a batch, g by component: by the editions that the batch and its specimen were planned under, whatever
 * was chosen since. Nothing while the moisture of the aggregate is not entered, or where no such batch can be.
 * @param batchParameters of the edition that the batch's own test is pinned to
 */
export async function batchTargets(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  specimenTestId: string,
  batchParameters: EditionParameters,
): Promise<Record<string, string>> {
  const [row] = await sql.rows<CastRow>(
    `select t.method_key as "methodKey", e.parameters as own, v.value::text as moisture, m.emulsion_percent::text as "emulsionPercent",
            m.water_percent::text as "waterPercent", m.filler_percent::text as "fillerPercent", m.additive_percent::text as "additivePercent"
       from test_event t
       join method_edition e on e.lab_id = t.lab_id and e.id = t.edition_id
       join mix m on m.lab_id = t.lab_id and m.id = t.mix_id
       join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
       left join result v on v.lab_id = r.lab_id and v.id = r.moisture_result_id
      where t.lab_id = $1::uuid and t.id = $2::uuid`,
    [sql.actor.labId, specimenTestId],
  )
  const method = row && methodByKey(methods, row.methodKey)
  if (!row || !method || row.moisture === null) return {}
  const { methodKey: _, own, moisture, ...shares } = row
  const editions = { own: JSON.parse(own) as EditionParameters, batch: batchParameters }
  const outcome = batchSheet({
    dryAggregateG: batchPortion(method, editions),
    moisturePercent: moisture,
    ...shares,
  })
  return outcome.ok ? Object.fromEntries(outcome.sheet.rows.map(({ component, targetG }) => [component, targetG])) : {}
}
