import type { CastingPlan } from '@curebook/contract/casting'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { notFound } from '#platform/problem'
import { personName } from '#platform/row-values'
import { rowsSql } from '#platform/sql-rows'
import { castingSeriesOf } from './casting-order.ts'
import { findCastables, type CastableRow } from './casting.repository.ts'

export type CastingService = ReturnType<typeof createCastingService>

const ended: readonly string[] = ['void', 'replaced']

/** In which order a design's specimens are cast, and which is next. */
export function createCastingService({
  laboratory,
  methods,
}: {
  laboratory: Laboratory
  methods: readonly MethodDeclaration[]
}) {
  function plan(actor: Actor, designId: string): Promise<CastingPlan> {
    return laboratory.inLaboratorySql(actor, async (raw) => {
      const sql = rowsSql(raw)
      const [design] = await sql.rows<{ name: string }>(
        'select name from design where lab_id = $1::uuid and id = $2::uuid',
        [actor.labId, designId],
      )
      if (!design) throw notFound('design')
      const series = castingSeriesOf(await findCastables(sql, [designId]))
      return {
        designId,
        designName: design.name,
        series: series.map(({ methodKey, rows }) => ({
          methodKey,
          methodName: methodByKey(methods, methodKey)?.name ?? methodKey,
          rows: rows.map((row, index) => toRow(row, index + 1)),
        })),
      }
    })
  }

  return { plan }
}

function toRow(row: CastableRow, ordinal: number): CastingPlan['series'][number]['rows'][number] {
  const { testId, batchTestId, code, label, spare, assigneeId, assigneeName, assigneeInitials } = row
  return {
    ...{ ordinal, testId, batchTestId, code, label, spare },
    block: spare ? null : row.replicate,
    state: ended.includes(row.state) ? 'void' : row.batchState === 'done' ? 'cast' : 'waiting',
    assignee:
      assigneeId === null
        ? null
        : personName({ id: assigneeId, name: assigneeName ?? '', initials: assigneeInitials ?? '' }),
  }
}
