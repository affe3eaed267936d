import type { Notice } from '@curebook/contract/notices'
import { personName } from '#platform/row-values'
import type { NoticeRow } from './notices.repository.ts'

/** Rows of assignments as notices, in the order of the rows. */
export function toNotices(rows: readonly NoticeRow[]): Notice[] {
  const byNotice = new Map<string, NoticeRow[]>()
  for (const row of rows) byNotice.set(row.id, [...(byNotice.get(row.id) ?? []), row])
  return [...byNotice.values()].map((own) => {
    const { id, kind, reason, at, byId, byName, byInitials } = own[0]!
    return {
      ...{ id, kind, reason },
      at: at.toISOString(),
      by: personName({ id: byId, name: byName, initials: byInitials }),
      others: othersOf(own),
      tests: testsOf(own),
    }
  })
}

function othersOf(rows: readonly NoticeRow[]): Notice['others'] {
  const named = new Map<string, Notice['others'][number]>()
  for (const { otherId, otherName, otherInitials } of rows)
    if (otherId !== null)
      named.set(otherId, personName({ id: otherId, name: otherName ?? '', initials: otherInitials ?? '' }))
  return [...named.values()]
}

/** People write one code: the batch 7KD2.B goes without saying where its specimen 7KD2 is named. */
function testsOf(rows: readonly NoticeRow[]): Notice['tests'] {
  const codes = new Set(rows.map(({ code }) => code))
  return rows
    .filter(({ methodKey, code }) => methodKey !== 'batch' || !codes.has(code.replace(/\.B$/, '')))
    .map(({ testId, code, label }) => ({ testId, code, label }))
}
