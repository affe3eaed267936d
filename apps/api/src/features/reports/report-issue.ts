import { shownNumber } from '@curebook/contract/report-number'
import type { IssueReport } from '@curebook/contract/reports'
import { type SignedContent, SignedContentSchema } from '@curebook/contract/signed-content'
import { workContent } from '@curebook/contract/work-content'
import { createHash } from 'node:crypto'
import { type Canonical, canonicalJson, sha256 } from '#platform/canonical-json'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { AppError } from '#platform/problem'
import { newId } from '#platform/uuid'
import { codeHash } from './check-code.ts'
import { rendererVersion } from './render/render-report.ts'
import type { ReportToRender } from './render/report-input.ts'

export type Drafted = { readonly toRender: ReportToRender; readonly row: DraftRow }
type DraftRow = {
  id: string
  number: string
  amendment: number
  /** What the laboratory's counter must give for `number` to be true; null when the number is that of an earlier report. */
  sequence: bigint | null
  replacesId: string | null
  projectId: string
  clientId: string
  designRevisionId: string
  signedContentId: string
  signatureId: string
  paper: string
  issuedAt: Date
  fileName: string
}

/** What is printed, from the approved content: read before the PDF is set, so that setting it holds no transaction open. */
export async function draftReport(
  tx: LaboratoryTransaction,
  input: IssueReport,
  checkCode: string,
  publicUrl: string | undefined,
): Promise<Drafted> {
  const { prisma, actor, at } = tx
  const { labId } = actor
  const revision = await prisma.designRevision.findUnique({
    where: { labId_id: { labId, id: input.revisionId } },
    include: { design: { include: { project: true } } },
  })
  if (!revision || revision.designId !== input.designId)
    throw new AppError('not-found', 'There is no such revision of this design in this laboratory.')
  const signatures = await prisma.signature.findMany({
    where: { labId, signedContent: { is: { subjectId: revision.id } } },
    include: { signedContent: true },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  })
  const approval = signatures.find(({ meaning }) => meaning === 'approved')
  if (!approval)
    throw new AppError(
      'wrong-state',
      `Revision ${revision.number} is not approved. A report is issued from an approved revision only.`,
    )
  const earlier = await latestReport(tx, input.designId)
  const reported = earlier?.designRevision
  if (reported && reported.number > revision.number)
    throw new AppError(
      'wrong-state',
      `Revision ${reported.number} is reported already; a report of revision ${revision.number} cannot take its place.`,
    )
  if (earlier?.designRevisionId === revision.id && !input.reason)
    throw new AppError(
      'conflict',
      `Report ${shownNumber(earlier.number, earlier.amendment)} of this revision is issued already. Give the reason to issue an amendment.`,
      { errors: [{ path: 'reason', message: 'Give the reason of the amendment.' }] },
    )
  const laboratory = await prisma.laboratory.findUniqueOrThrow({ where: { id: labId } })
  const { number, sequence } = earlier
    ? { number: earlier.number, sequence: null }
    : await expectedNumber(tx, laboratory.shortName)
  const amendment = earlier ? earlier.amendment + 1 : 0
  const content = SignedContentSchema.parse(JSON.parse(approval.signedContent.body))
  return {
    row: {
      id: input.id,
      number,
      amendment,
      sequence,
      replacesId: earlier?.id ?? null,
      projectId: revision.design.projectId,
      clientId: revision.design.project.clientId,
      designRevisionId: revision.id,
      signedContentId: approval.signedContentId,
      signatureId: approval.id,
      paper: laboratory.paper,
      issuedAt: at,
      fileName: fileNameOf(revision.design.project.name, number, amendment, at),
    },
    toRender: {
      content,
      report: {
        number: shownNumber(number, amendment),
        amendment,
        replaces: earlier ? shownNumber(earlier.number, earlier.amendment) : null,
        reason:
          input.reason ??
          (earlier
            ? `Revision ${revision.number} of the design takes the place of the revision reported before.`
            : null),
        issuedAt: at.toISOString(),
        language: 'en',
        paper: laboratory.paper === 'letter' ? 'letter' : 'A4',
        checkCode,
        checkUrl: publicUrl ? `${publicUrl}/check/${checkCode}` : null,
        digest: Buffer.from(approval.dig).toString('hex'),
      },
      signatures: signatures
        .filter(isOfThisContent(approval))
        .map(({ meaning, printedName, printedRole, statement, at: signedAt, dig }) => ({
          meaning,
          name: printedName,
          role: printedRole,
          statement,
          at: signedAt.toISOString(),
          digest: Buffer.from(dig).toString('hex'),
        })),
    },
  }
}

type SignatureRow = { id: string; dig: Uint8Array; signedContent: { body: string } }

/** The approval, and checks of exactly the work that it approves: a check of work that changed afterwards is left out. */
function isOfThisContent(approval: SignatureRow): (signature: SignatureRow) => boolean {
  const content = JSON.parse(approval.signedContent.body) as SignedContent
  const workDig = sha256(canonicalJson(workContent(content) as unknown as Canonical))
  return ({ id, dig }) => id === approval.id || Buffer.compare(Buffer.from(dig), workDig) === 0
}

/** The report of a design that no later one has replaced. */
function latestReport({ prisma, actor }: LaboratoryTransaction, designId: string) {
  return prisma.report.findFirst({
    where: { labId: actor.labId, designRevision: { is: { designId } }, reportAsReplaces: { is: null } },
    include: { designRevision: { select: { number: true } } },
    orderBy: { issuedAt: 'desc' },
  })
}

/** Another report of the laboratory took the number while the PDF was set: it is to be drafted and set again. */
export class NumberTaken extends Error {
  override name = 'NumberTaken'
}

/**
 * Keeps the PDF and issues the report, if nobody issued one of this design meanwhile. Only here is the number taken, so that
 * a report which is not issued leaves no gap. Throws NumberTaken when it is no longer the one that is printed.
 */
export async function keepReport(
  tx: LaboratoryTransaction,
  { row, toRender }: Drafted,
  pdf: Buffer,
  checkCode: string,
): Promise<void> {
  const { prisma, actor, at } = tx
  const { labId } = actor
  const { fileName, sequence, ...columns } = row
  // Two issues of one design follow one another; the second finds the first here.
  const designId = toRender.content.design.id
  await prisma.$queryRaw`select id from design where lab_id = ${labId}::uuid and id = ${designId}::uuid for update`
  if (((await latestReport(tx, designId))?.id ?? null) !== row.replacesId)
    throw new AppError(
      'conflict',
      'A report of this design was issued meanwhile. Look at it; an amendment needs a reason.',
    )
  if (sequence !== null && (await takeNumber(tx)) !== sequence) throw new NumberTaken()
  const pdfSha256 = new Uint8Array(createHash('sha256').update(pdf).digest())
  const pdfId = newId()
  await prisma.attachment.createMany({
    data: [
      {
        labId,
        id: pdfId,
        mediaType: 'application/pdf',
        bytes: pdf.length,
        sha256: pdfSha256,
        name: fileName,
        byId: actor.membershipId,
        at,
      },
    ],
  })
  await prisma.attachmentBody.createMany({ data: [{ labId, attachmentId: pdfId, body: new Uint8Array(pdf) }] })
  await prisma.report.createMany({
    data: [
      {
        ...columns,
        labId,
        language: 'en',
        renderer: rendererVersion,
        pdfId,
        pdfSha256,
        publicTokenHash: new Uint8Array(codeHash(checkCode)),
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
        reportId: row.id,
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
    subjectId: row.id,
    projectId: row.projectId,
    clientId: row.clientId,
    topics: ['reports', `project:${row.projectId}`, `revision:${row.designRevisionId}`],
    content: {
      number: row.number,
      amendment: String(row.amendment),
      digest: toRender.report.digest,
      pdf: Buffer.from(pdfSha256).toString('hex'),
    },
  })
}

/** The number that the next report of the laboratory gets if no other is issued before it; nothing is taken yet. */
async function expectedNumber({ prisma, actor, at }: LaboratoryTransaction, shortName: string) {
  const taken = await prisma.counter.findUnique({
    where: { labId_name: { labId: actor.labId, name: 'report' } },
    select: { value: true },
  })
  const sequence = (taken?.value ?? 0n) + 1n
  return {
    sequence,
    number: `${shortName.toUpperCase()}-${at.getUTCFullYear()}-${String(sequence).padStart(4, '0')}`,
  }
}

/** Takes the next number; whoever else wants one waits for this transaction's end, and gets the same if it fails. */
async function takeNumber({ prisma }: LaboratoryTransaction): Promise<bigint> {
  const [{ taken }] = await prisma.$queryRaw<[{ taken: bigint }]>`select next_number('report') as taken`
  return taken
}

/** Project, number and date, in signs that every file system takes. */
function fileNameOf(project: string, number: string, amendment: number, at: Date): string {
  const plain = project
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
  return `${plain}_${number}${amendment > 0 ? `-A${amendment}` : ''}_${at.toISOString().slice(0, 10)}.pdf`
}
