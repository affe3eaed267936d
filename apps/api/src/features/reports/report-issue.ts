import { shownNumber } from '@curebook/contract/report-number'
import type { IssueReport } from '@curebook/contract/reports'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { AppError, notFound } from '#platform/problem'
import { newId } from '#platform/uuid'
import { findPreview, findPreviewFile, lockDesign } from './report-previews.repository.ts'
import { judgePreview } from './preview-state.ts'

/**
 * Issues the report of a preview: its file goes out byte for byte, and only while nothing that is printed on it would be
 * different now. Only here is the number taken, so that a report which is not issued leaves no gap.
 */
export async function issuePreview(
  tx: LaboratoryTransaction,
  input: IssueReport,
  publicUrl: string | undefined,
): Promise<void> {
  const { prisma, actor, at } = tx
  const { labId } = actor
  const asked = await findPreview(tx, input.previewId)
  if (!asked) throw notFound('preview')
  // Two issues of one design follow one another; the second finds the first in what it judges.
  await lockDesign(tx, asked.designId)
  // Read again: only now is it sure that nobody issues it at the same moment.
  const shown = (await findPreview(tx, input.previewId))!
  const { state, sentence, drafted } = await judgePreview(tx, shown, publicUrl)
  if (state === 'issued') throw new AppError('conflict', sentence)
  if (!drafted) throw new AppError('changed-meanwhile', sentence)
  const { row, toRender } = drafted
  const { fileName, sequence, ...columns } = row
  if (sequence !== null && (await takeNumber(tx)) !== sequence)
    throw new AppError(
      'changed-meanwhile',
      `The number ${row.number} of this preview was taken by another report meanwhile. Look at the report with its new number, then issue it.`,
    )
  const preview = { ...shown, pdf: (await findPreviewFile(tx, shown.id))! }
  const pdfId = newId()
  await prisma.attachment.createMany({
    data: [
      {
        labId,
        id: pdfId,
        mediaType: 'application/pdf',
        bytes: preview.pdf.length,
        sha256: preview.pdfSha256,
        name: fileName,
        byId: actor.membershipId,
        at,
      },
    ],
  })
  await prisma.attachmentBody.createMany({ data: [{ labId, attachmentId: pdfId, body: preview.pdf }] })
  await prisma.report.createMany({
    data: [
      {
        ...columns,
        labId,
        id: input.id,
        language: 'en',
        renderer: preview.renderer,
        pdfId,
        pdfSha256: preview.pdfSha256,
        publicTokenHash: preview.publicTokenHash,
        previewId: preview.id,
        issuedAt: at,
        byId: actor.membershipId,
        at,
      },
    ],
  })
  await prisma.reportEvent.createMany({
    data: [
      {
        labId,
        id: newId(),
        reportId: input.id,
        kind: 'issued',
        note: toRender.report.reason ?? null,
        byId: actor.membershipId,
        at,
      },
      ...(row.replacesId
        ? [
            {
              labId,
              id: newId(),
              reportId: row.replacesId,
              kind: 'superseded',
              note: `Replaced by ${shownNumber(row.number, row.amendment)}`,
              byId: actor.membershipId,
              at,
            },
          ]
        : []),
    ],
  })
  tx.record({
    action: 'report:issue',
    subjectKind: 'report',
    subjectId: input.id,
    projectId: row.projectId,
    clientId: row.clientId,
    topics: ['reports', `project:${row.projectId}`, `revision:${row.designRevisionId}`],
    content: {
      number: row.number,
      amendment: String(row.amendment),
      digest: toRender.report.digest,
      preview: preview.id,
      pdf: Buffer.from(preview.pdfSha256).toString('hex'),
    },
  })
}

/** Takes the next number; whoever else wants one waits for this transaction's end, and gets the same if it fails. */
async function takeNumber({ prisma }: LaboratoryTransaction): Promise<bigint> {
  const [{ taken }] = await prisma.$queryRaw<[{ taken: bigint }]>`select next_number('report') as taken`
  return taken
}
