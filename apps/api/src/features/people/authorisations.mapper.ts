import type { Authorisation } from '@curebook/contract/authorisations'
import { dayOf, personName } from '#platform/row-values'
import { spanState } from './authorisation-rules.ts'
import type { AuthorisationRow } from './authorisations.repository.ts'

export function toAuthorisation(
  row: AuthorisationRow,
  labels: ReadonlyMap<string, string>,
  today: string,
): Authorisation {
  const span = { fromDay: dayOf(row.fromDay), untilDay: row.untilDay && dayOf(row.untilDay) }
  return {
    id: row.id,
    person: personName(row.membership),
    activity: row.activity,
    activityLabel: labels.get(row.activity) ?? row.activity,
    ...span,
    evidence: row.evidence,
    state: spanState(span, today),
    by: personName(row.by),
    at: row.at.toISOString(),
    reason: row.reason,
  }
}
