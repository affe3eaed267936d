import type { ClientProject } from '@curebook/contract/reports'

export type OwnReport = ClientProject['reports'][number]

/** Reports in force first, then the newest; what was replaced stays in the list and says so. */
export function inReadingOrder(reports: readonly OwnReport[]): readonly OwnReport[] {
  const rank = ({ state }: OwnReport) => (state === 'current' ? 0 : 1)
  return reports.toSorted(
    (one, other) => rank(one) - rank(other) || Date.parse(other.issuedAt) - Date.parse(one.issuedAt),
  )
}

/** The report that stands in place of another one, where it is among those that the client may open. */
export function replacementOf(report: OwnReport, reports: readonly OwnReport[]): OwnReport | undefined {
  if (report.replacedBy === null) return undefined
  return reports.find(({ id, number }) => id === report.replacedBy || number === report.replacedBy)
}
