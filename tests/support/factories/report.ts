import type { PreviewReport, Report } from '@curebook/contract/reports'
import { newId } from '../../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../app.ts'
import type { TestLaboratory } from './laboratory.ts'

/** A report as the engineer issues it: looked at first, then released as it was shown. */
export async function issueReport(
  { services }: TestApp,
  lab: TestLaboratory,
  of: Omit<PreviewReport, 'id'>,
): Promise<Report> {
  const { actor } = lab.people.engineer
  const { value: preview } = await services.reports.previews.create(actor, { id: newId(), ...of })
  return (await services.reports.issue(actor, { id: newId(), previewId: preview.id })).value
}
