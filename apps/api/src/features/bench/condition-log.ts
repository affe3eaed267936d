import type { ConditionLog } from '@curebook/contract/conditions'
import { gapsOf, isOutside } from '@curebook/trade/procedure/condition-log'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { RowsSql } from '#platform/sql-rows'
import { decidingKinds } from './holds.repository.ts'
import { findLog, toLogged } from './conditions.repository.ts'
import { deviationText } from './excursions.repository.ts'
import { findKey } from './instrument-keys.repository.ts'
import { type HeldStay, type OvenAtHand, staysIn } from './held-stays.ts'

/** How many days of a log are shown. */
const shownMs = 7 * 86_400_000

/** The last days of a log as it stands: values, what stood inside asked for, gaps, deviations. */
export async function logOf(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  oven: OvenAtHand,
): Promise<ConditionLog> {
  const from = new Date(sql.at.getTime() - shownMs)
  const rows = await findLog(sql, oven.id, from, sql.at)
  const stays = await staysIn(sql, methods, oven, from)
  const first = rows[0]?.observedAt.toISOString() ?? sql.at.toISOString()
  const [key, deviations] = [await findKey(sql, oven.id), await findDeviationsOf(sql, oven.id)]
  return {
    now: sql.at.toISOString(),
    from: from.toISOString(),
    held: [
      ...new Set(
        stays
          .filter(({ until }) => until === null)
          .map(({ held }) => `${held.target} ± ${held.tolerance} ${held.unit}`),
      ),
    ],
    values: rows.map((row) => ({
      id: row.id,
      at: row.observedAt.toISOString(),
      typed: row.typed,
      unit: row.unit,
      by: row.byId ? { membershipId: row.byId, name: row.byName!, initials: row.byInitials! } : null,
      note: row.note,
      outside: outsideOf(stays, row.observedAt, row.value),
      corrects:
        row.reason === null ? null : { typed: row.correctedTyped!, name: row.correctedName ?? '', reason: row.reason },
    })),
    // Before its first value nobody kept a log: that is no gap in it.
    gaps: [...gapsOf(toLogged(rows), first, sql.at.toISOString())],
    deviations,
    key: key?.isKey
      ? { at: key.at.toISOString(), by: { membershipId: key.byId, name: key.byName, initials: key.byInitials } }
      : null,
  }
}

/** Whether a value lay outside of what anything inside asked for then; null when nothing stood there. */
function outsideOf(stays: readonly HeldStay[], at: Date, value: string): boolean | null {
  const inside = stays.filter(
    ({ from, until }) => Date.parse(from) <= at.getTime() && (until === null || Date.parse(until) >= at.getTime()),
  )
  return inside.length === 0 ? null : inside.some(({ held }) => isOutside(value, held))
}

function findDeviationsOf(sql: RowsSql, instrumentId: string): Promise<ConditionLog['deviations']> {
  return sql.rows(
    `select d.id, ${deviationText('d')} as text,
            exists (select from deviation_event e where e.lab_id = d.lab_id and e.deviation_id = d.id and e.kind in ${decidingKinds}) as decided
       from deviation d
      where d.lab_id = $1::uuid and d.instrument_id = $2::uuid and d.kind = 'condition'
      order by d.at desc, d.id limit 20`,
    [sql.actor.labId, instrumentId],
  )
}
