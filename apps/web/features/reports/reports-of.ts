import type { Report } from '@curebook/contract/reports'

/** The reports of one design, the newest first. */
export function reportsOf(reports: readonly Report[], designId: string): readonly Report[] {
  return reports
    .filter((report) => report.designId === designId)
    .sort((a, b) => Date.parse(b.issuedAt) - Date.parse(a.issuedAt))
}

/** A revision has one current report at most; a further one amends it. */
export function currentOf(reports: readonly Report[], revision: number): Report | undefined {
  return reports.find((report) => report.revision === revision && report.state === 'current')
}
