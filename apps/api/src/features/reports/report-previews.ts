import type { PreviewReport, ReportPreview } from '@curebook/contract/reports'
import { createHash } from 'node:crypto'
import type { ReviewService } from '#features/review/review.service'
import type { Actor } from '#platform/actor'
import { createOnce, type Created } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, notFound } from '#platform/problem'
import { codeHash, newCheckCode } from './check-code.ts'
import { judgePreview } from './preview-state.ts'
import type { ReportRenderer } from './render/report-renderer.ts'
import { rendererVersion } from './render/render-report.ts'
import { draftReport } from './report-draft.ts'
import {
  findPreview,
  findPreviewFile,
  findReady,
  insertPreview,
  lockDesign,
  type NewPreview,
  type ReadyOf,
} from './report-previews.repository.ts'

type Deps = {
  laboratory: Laboratory
  renderer: ReportRenderer
  publicUrl: string | undefined
  review: Pick<ReviewService, 'standingIn'>
}

/** A report before it is issued: the draft before the approval, and the very file that issuing releases. */
export function createReportPreviews({ laboratory, renderer, publicUrl, review }: Deps) {
  /**
   * The PDF is set between two transactions, so that setting it holds none open. A preview of the same that is ready is
   * answered in its place: it would be the same file but for its check code and the minute.
   */
  async function setFile(actor: Actor, input: PreviewReport): Promise<ReportPreview | NewPreview> {
    const checkCode = newCheckCode()
    const { drafted, ready } = await laboratory.inLaboratory(actor, async (tx) => {
      const drafted = await draftReport(tx, input, checkCode, publicUrl)
      return { drafted, ready: await readyOf(tx, { revisionId: input.revisionId, basis: drafted.basis }) }
    })
    if (ready) return ready
    const { row, toRender, basis } = drafted
    const pdf = await renderer.render(toRender)
    return {
      id: input.id,
      revisionId: row.designRevisionId,
      signedContentId: row.signedContentId,
      number: row.number,
      amendment: row.amendment,
      reason: input.reason ?? null,
      renderer: rendererVersion,
      basis: new Uint8Array(basis),
      pdf: new Uint8Array(pdf),
      pdfSha256: new Uint8Array(createHash('sha256').update(pdf).digest()),
      publicTokenHash: new Uint8Array(codeHash(checkCode)),
      at: new Date(toRender.report.madeAt),
    }
  }

  async function create(actor: Actor, input: PreviewReport): Promise<Created<ReportPreview>> {
    const stands = await laboratory.inLaboratory(actor, (tx) => findPreview(tx, input.id))
    const made = stands ? null : await setFile(actor, input)
    if (made && 'state' in made) return { created: false, value: made }
    const { created, value } = await createOnce(laboratory, actor, {
      subjectKind: 'report-preview',
      id: input.id,
      input,
      find: viewOf(input.id),
      create: async (tx) => {
        // Of two who look at the same moment the second is shown the file of the first.
        await lockDesign(tx, input.designId)
        const ready = await readyOf(tx, made!)
        if (ready) return ready
        await insertPreview(tx, made!)
        tx.record({
          action: 'report:preview',
          subjectKind: 'report-preview',
          subjectId: input.id,
          topics: [],
          content: {
            revision: made!.revisionId,
            number: made!.number,
            amendment: String(made!.amendment),
            pdf: Buffer.from(made!.pdfSha256).toString('hex'),
          },
        })
        return (await viewOf(input.id)(tx))!
      },
    })
    return { created: created && value.id === input.id, value }
  }

  async function readyOf(tx: LaboratoryTransaction, of: ReadyOf): Promise<ReportPreview | null> {
    const id = await findReady(tx, of)
    return id === null ? null : viewOf(id)(tx)
  }

  const viewOf =
    (id: string) =>
    async (tx: LaboratoryTransaction): Promise<ReportPreview | null> => {
      const row = await findPreview(tx, id)
      if (!row) return null
      const { state, sentence } = await judgePreview(tx, row, publicUrl)
      return {
        id,
        designId: row.designId,
        revisionId: row.revisionId,
        revision: row.revision,
        number: row.number,
        amendment: row.amendment,
        reason: row.reason,
        madeAt: row.at.toISOString(),
        digest: row.digest,
        fileDigest: Buffer.from(row.pdfSha256).toString('hex'),
        bytes: row.bytes,
        state,
        sentence,
      }
    }

  async function read(actor: Actor, id: string): Promise<ReportPreview> {
    const preview = await laboratory.inLaboratory(actor, viewOf(id))
    if (!preview) throw notFound('preview')
    return preview
  }

  async function pdf(actor: Actor, id: string): Promise<Buffer> {
    const file = await laboratory.inLaboratory(actor, (tx) => findPreviewFile(tx, id))
    if (!file) throw notFound('preview')
    return Buffer.from(file)
  }

  /**
   * The newest revision as its report would read, before the approval. Its signatures and number are not there yet and part
   * of what is released, so this is another file than the released one and says so; it is kept nowhere.
   */
  async function draft(actor: Actor, designId: string): Promise<Buffer> {
    const { content, paper, digest, at } = await laboratory.inLaboratory(
      actor,
      async (tx) => {
        const { content, review: standing } = await review.standingIn(tx, designId)
        if (standing.state === 'approved')
          throw new AppError(
            'wrong-state',
            `Revision ${standing.revision} is approved: its report has a preview, which is the file that is issued.`,
          )
        const where = { id: actor.labId }
        const { paper } = await tx.prisma.laboratory.findUniqueOrThrow({ where, select: { paper: true } })
        return { content, paper, digest: standing.digest, at: tx.at }
      },
      { isolationLevel: 'RepeatableRead' },
    )
    return renderer.render({
      content,
      report: {
        number: null,
        amendment: 0,
        madeAt: at.toISOString(),
        language: 'en',
        paper: paper === 'letter' ? 'letter' : 'A4',
        checkCode: null,
        checkUrl: null,
        digest,
      },
      signatures: [],
    })
  }

  return { create, read, pdf, draft }
}
