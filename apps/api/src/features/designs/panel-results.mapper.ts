import type { MadeBy } from '@curebook/contract/made-by'
import type { PanelResult } from '@curebook/contract/panel-results'
import { dayOf, digitsOf, personName } from '#platform/row-values'
import type { PanelResultRow } from './panel-results.repository.ts'

/** An entered result of the panel. Value, unit, day and revision stand: the database refuses a row without them. */
export function toPanelResult(row: PanelResultRow): PanelResult {
  const { value, valueText, unit, observedOn, designRevision, attachment, supersedes } = row
  if (value === null || valueText === null || unit === null || observedOn === null || designRevision === null)
    throw new Error(`Entered result ${row.id} lacks its value, day or revision`)
  return {
    id: row.id,
    limitKey: row.key,
    typed: valueText,
    value: digitsOf(value),
    unit,
    madeBy: row.madeBy as MadeBy,
    method: row.methodName ?? '',
    edition: row.methodEdition ?? '',
    source: row.source ?? '',
    laboratoryName: row.laboratoryName ?? '',
    instrument: row.instrumentName ?? '',
    observedBy: row.observedBy ?? '',
    observedOn: dayOf(observedOn),
    atEmulsionPercent: row.atContent,
    remark: row.remark ?? '',
    attachment: attachment && {
      id: attachment.id,
      name: attachment.name,
      mediaType: attachment.mediaType,
      sha256: Buffer.from(attachment.sha256).toString('hex'),
    },
    revision: designRevision.number,
    by: personName(row.by),
    at: row.at.toISOString(),
    supersedes: supersedes && {
      id: supersedes.id,
      typed: supersedes.valueText ?? '',
      unit: supersedes.unit ?? '',
      reason: row.reason ?? '',
    },
  }
}
