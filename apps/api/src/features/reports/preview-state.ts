import { shownNumber } from '@curebook/contract/report-number'
import type { ReportPreview } from '@curebook/contract/reports'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { dayIn } from '#platform/laboratory-day'
import { AppError } from '#platform/problem'
import { draftReport, type Drafted } from './report-draft.ts'
import type { PreviewRow } from './report-previews.repository.ts'

type Judged = Pick<ReportPreview, 'state' | 'sentence'> & {
  /** What would be printed now, when that is what the preview shows. */
  readonly drafted?: Drafted
}

/** Whether a preview still shows exactly what a report issued now would be, and what is otherwise. */
export async function judgePreview(
  tx: LaboratoryTransaction,
  preview: PreviewRow,
  publicUrl: string | undefined,
): Promise<Judged> {
  const { designId, revisionId, issued, reason } = preview
  if (issued)
    return {
      state: 'issued',
      sentence: `Report ${shownNumber(issued.number, issued.amendment)} was issued from this preview: it is this file.`,
    }
  const input = { designId, revisionId, ...(reason === null ? {} : { reason }) }
  // The code of a preview stands in its file alone, as in the issued report.
  const drafted = await draftReport(tx, input, '', publicUrl).catch((error: unknown) => {
    if (error instanceof AppError && error.code !== 'not-found') return error
    throw error
  })
  if (drafted instanceof AppError)
    return { state: 'out-of-date', sentence: `The preview is out of date. ${drafted.message}` }
  if (drafted.basis.equals(preview.basis))
    return {
      state: 'ready',
      sentence: 'Not released. Issuing releases exactly this file; until then only who may issue reports can open it.',
      drafted,
    }
  return { state: 'out-of-date', sentence: `The preview is out of date. ${whatDiffers(preview, drafted)}` }
}

/** What a report issued now would say otherwise, the plainest of it first. */
function whatDiffers(preview: PreviewRow, { row, day, toRender }: Drafted): string {
  const shown = shownNumber(preview.number, preview.amendment)
  const now = shownNumber(row.number, row.amendment)
  if (shown !== now)
    return `Another report was issued since: this one would now be ${now}, and the preview bears ${shown}.`
  const { zone } = toRender.content.laboratory
  if (dayIn(zone, preview.at) !== day)
    return `It is dated ${dayIn(zone, preview.at)}, and a report that is issued now bears ${day}.`
  return 'What is printed on it would be otherwise now.'
}
