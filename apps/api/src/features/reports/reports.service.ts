import type { IssueReport, Report, ReportCheck, ReportsQuery } from '@curebook/contract/reports'
import { SignedContentSchema } from '@curebook/contract/signed-content'
import type { Database } from '@curebook/database/open-database'
import { rowsSqlOf } from '#platform/sql-rows'
import type { MailService } from '#features/mail/mail.service'
import type { Actor } from '#platform/actor'
import type { ReviewService } from '#features/review/review.service'
import type { Laboratory } from '#platform/laboratory'
import { AppError, notFound } from '#platform/problem'
import { codeHash } from './check-code.ts'
import type { ReportRenderer } from './render/report-renderer.ts'
import { resultsCsv } from './render/results-csv.ts'
import { issuePreview } from './report-issue.ts'
import { createReportPreviews } from './report-previews.ts'
import { shownNumber } from '@curebook/contract/report-number'
import { type CheckedReport, findContent, findPdf, findReports, type ReportFile } from './reports.repository.ts'

export type ReportsService = ReturnType<typeof createReportsService>
type Deps = {
  laboratory: Laboratory
  database: Pick<Database, 'pool'>
  renderer: ReportRenderer
  publicUrl: string | undefined
  review: Pick<ReviewService, 'standingIn'>
  sealNow: () => Promise<void>
  mail: Pick<MailService, 'writeToClient'>
}

/** Reports: issued from approved content, kept as bytes, checked by anybody who has one. */
export function createReportsService({ laboratory, database, renderer, publicUrl, review, sealNow, mail }: Deps) {
  const previews = createReportPreviews({ laboratory, renderer, publicUrl, review })

  const list = (actor: Actor, of: ReportsQuery): Promise<{ items: Report[]; next: null }> =>
    laboratory.inLaboratory(actor, async (tx) => ({ items: await findReports(rowsSqlOf(tx), of), next: null }))

  async function one(actor: Actor, id: string): Promise<Report | null> {
    return laboratory.inLaboratory(actor, async (tx) => (await findReports(rowsSqlOf(tx), { id }))[0] ?? null)
  }

  /** What stands under an id already: the same report again, or a conflict with another one. */
  async function again(
    actor: Actor,
    { id, previewId }: IssueReport,
  ): Promise<{ created: false; value: Report } | null> {
    return laboratory.inLaboratory(actor, async (tx) => {
      const [value] = await findReports(rowsSqlOf(tx), { id })
      if (!value) return null
      const key = { labId_id: { labId: actor.labId, id } }
      const row = await tx.prisma.report.findUniqueOrThrow({ where: key, select: { previewId: true } })
      if (row.previewId === previewId) return { created: false, value }
      throw new AppError('conflict', 'Another report stands under this id. Issue the new one under an id of its own.', {
        extra: { stored: value },
      })
    })
  }

  /** Releases the file of a preview, byte for byte; refused with 412 when a report issued now would read otherwise. */
  async function issue(actor: Actor, input: IssueReport): Promise<{ created: boolean; value: Report }> {
    const before = await again(actor, input)
    if (before) return before
    await sealNow()
    try {
      await laboratory.inLaboratory(actor, async (tx) => {
        await issuePreview(tx, input, publicUrl)
        const where = { labId_id: { labId: actor.labId, id: input.id } }
        const select = { clientId: true, projectId: true }
        const issued = await tx.prisma.report.findUniqueOrThrow({ where, select })
        await mail.writeToClient(tx, { kind: 'reports', ...issued })
      })
    } catch (error) {
      // The same message twice at once: the other one stands now.
      const mine = await again(actor, input)
      if (mine) return mine
      throw error
    }
    return { created: true, value: (await one(actor, input.id))! }
  }

  async function pdf(actor: Actor, id: string): Promise<ReportFile> {
    const file = await laboratory.inLaboratory(actor, (tx) => findPdf(rowsSqlOf(tx), id))
    if (!file) throw notFound('report')
    return file
  }

  /** Exactly the bytes that were signed: whoever has them can make the digest on the report, and every number in it. */
  async function signedBytes(actor: Actor, id: string): Promise<Buffer> {
    const body = await laboratory.inLaboratory(actor, (tx) => findContent(rowsSqlOf(tx), id))
    if (!body) throw notFound('report')
    return Buffer.from(body, 'utf8')
  }

  async function csv(actor: Actor, id: string): Promise<string> {
    const body = await laboratory.inLaboratory(actor, (tx) => findContent(rowsSqlOf(tx), id))
    if (!body) throw notFound('report')
    const content = SignedContentSchema.parse(JSON.parse(body))
    return resultsCsv(content, { decimalSign: content.laboratory.decimalSign })
  }

  /** For anybody: whether the report with this code is genuine and current. */
  async function check(code: string): Promise<ReportCheck> {
    const { rows } = await database.pool.query<CheckedReport>('select * from check_report($1)', [codeHash(code)])
    const [found] = rows
    if (!found)
      return {
        genuine: false,
        state: 'unknown',
        sentence: 'No report of this product has this code. Compare the code with the one on the report, sign by sign.',
        number: null,
        laboratory: null,
        issuedAt: null,
        digest: null,
      }
    const number = shownNumber(found.number, found.amendment)
    const later =
      found.replaced_by_number === null ? null : shownNumber(found.replaced_by_number, found.replaced_by_amendment ?? 0)
    const sentences = {
      current: `Report ${number} is genuine and current.`,
      superseded: `Report ${number} is genuine, but a later one has taken its place${later ? `: ${later}` : ''}. Ask the laboratory for it.`,
      withdrawn: `Report ${number} is genuine, but the laboratory has withdrawn it. Do not rely on it.`,
      unknown: '',
    }
    return {
      genuine: true,
      state: found.state,
      sentence: sentences[found.state],
      number,
      laboratory: found.laboratory,
      issuedAt: found.issued_at.toISOString(),
      digest: Buffer.from(found.digest).toString('hex'),
    }
  }

  return { list, previews, issue, pdf, csv, signedBytes, check }
}
