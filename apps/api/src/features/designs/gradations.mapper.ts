import type { Gradation } from '@curebook/contract/gradations'
import type { MadeBy } from '@curebook/contract/made-by'
import { dayOf, personName } from '#platform/row-values'
import type { GradationRow } from './gradations.repository.ts'

/** @param replaced what it took the place of: of its own revision, or what stood for the one before */
export function toGradation(row: GradationRow, replaced: Pick<GradationRow, 'id' | 'sieves'> | null): Gradation {
  const { attachment } = row
  return {
    id: row.id,
    sieves: row.sieves.map(toSieve),
    madeBy: row.madeBy as MadeBy,
    method: row.methodName,
    edition: row.methodEdition ?? '',
    source: row.source,
    laboratoryName: row.laboratoryName ?? '',
    observedBy: row.observedBy ?? '',
    observedOn: dayOf(row.observedOn),
    remark: row.remark ?? '',
    attachment: attachment && {
      id: attachment.id,
      name: attachment.name,
      mediaType: attachment.mediaType,
      sha256: Buffer.from(attachment.sha256).toString('hex'),
    },
    revision: row.designRevision.number,
    by: personName(row.by),
    at: row.at.toISOString(),
    supersedes: replaced && {
      id: replaced.id,
      sieves: replaced.sieves.map(toSieve),
      reason: row.reason ?? '',
    },
  }
}

const toSieve = ({ sizeText, passingText }: { sizeText: string; passingText: string }) => ({
  size: sizeText,
  passing: passingText,
})
