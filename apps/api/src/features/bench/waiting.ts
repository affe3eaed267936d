import type { Waiting } from '@curebook/contract/deviations'
import { findReleasers } from '#features/people/authorised.service'
import type { RowsSql } from '#platform/sql-rows'
import { findWaiting } from './holds.repository.ts'

/**
 * What waits under each of these deviations, and who may release it: a manager or engineer, authorised for it where anybody
 * is, who made none of the readings. Deviations under which nothing waits are not in the answer.
 */
export async function waitingUnder(
  sql: RowsSql,
  deviationIds: readonly string[],
): Promise<ReadonlyMap<string, Waiting>> {
  if (deviationIds.length === 0) return new Map()
  const rows = await findWaiting(sql, deviationIds)
  if (rows.length === 0) return new Map()
  const releasers = await findReleasers(sql)
  return new Map(
    [...new Set(rows.map(({ deviationId }) => deviationId))].map((deviationId) => {
      const own = rows.filter((row) => row.deviationId === deviationId)
      const may = releasers.filter(({ membershipId }) => own.every(({ byId }) => byId !== membershipId))
      const readingIds = own.map(({ readingId }) => readingId)
      return [
        deviationId,
        {
          readingIds,
          typed: own.map(({ typed }) => typed),
          mayRelease: may.some(({ membershipId }) => membershipId === sql.actor.membershipId),
          sentence: sentenceOf(may.map(({ name }) => name)),
        },
      ]
    }),
  )
}

function sentenceOf(names: readonly string[]): string {
  if (names.length === 0)
    return 'Kept, does not count until released. Nobody here may release it: a manager or engineer who did not read it, authorised for release, has to be named under People.'
  return `Kept, does not count until released; a manager or engineer can release it: ${names.join(', ')}.`
}
