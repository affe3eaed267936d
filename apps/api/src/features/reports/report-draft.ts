import { shownNumber } from '@curebook/contract/report-number'
import type { PreviewReport } from '@curebook/contract/reports'
import { type SignedContent, SignedContentSchema } from '@curebook/contract/signed-content'
import { workContent } from '@curebook/contract/work-content'
import { type Canonical, canonicalJson, digestOf, sha256 } from '#platform/canonical-json'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { dayIn } from '#platform/laboratory-day'
import { AppError } from '#platform/problem'
import { rendererVersion } from './render/render-report.ts'
import type { ReportToRender } from './render/report-input.ts'

export type Drafted = {
  readonly toRender: ReportToRender
  readonly row: DraftRow
  /** The day of issue as printed, by the laboratory's calendar. */
  readonly day: string
  /** Digest of all that is printed but the check code and the minute: the same basis means the same report. */
  readonly basis: Buffer
}
type DraftRow = {
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
  fileName: string
}

/** What would be printed if the report were issued now, from the approved content. Nothing is written and no number taken. */
export async function draftReport(
  tx: LaboratoryTransaction,
  input: Omit<PreviewReport, 'id'>,
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
  const day = dayIn(content.laboratory.zone, at)
  const printed = {
    number: shownNumber(number, amendment),
    amendment,
    replaces: earlier ? shownNumber(earlier.number, earlier.amendment) : null,
    reason:
      input.reason ??
      (earlier ? `Revision ${revision.number} of the design takes the place of the revision reported before.` : null),
    language: 'en',
    paper: laboratory.paper === 'letter' ? 'letter' : 'A4',
    digest: Buffer.from(approval.dig).toString('hex'),
  } as const
  const given = signatures
    .filter(isOfThisContent(approval))
    .map(({ meaning, printedName, printedRole, statement, at: signedAt, dig }) => ({
      meaning,
      name: printedName,
      role: printedRole,
      statement,
      at: signedAt.toISOString(),
      digest: Buffer.from(dig).toString('hex'),
    }))
  return {
    day,
    basis: digestOf({ renderer: rendererVersion, day, publicUrl: publicUrl ?? null, printed, signatures: given }),
    row: {
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
      fileName: fileNameOf(revision.design.project.name, number, amendment, day),
    },
    toRender: {
      content,
      report: {
        ...printed,
        madeAt: at.toISOString(),
        checkCode,
        checkUrl: publicUrl ? `${publicUrl}/check/${checkCode}` : null,
      },
      signatures: given,
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
export function latestReport({ prisma, actor }: LaboratoryTransaction, designId: string) {
  return prisma.report.findFirst({
    where: { labId: actor.labId, designRevision: { is: { designId } }, reportAsReplaces: { is: null } },
    include: { designRevision: { select: { number: true } } },
    orderBy: [{ issuedAt: 'desc' }, { id: 'desc' }],
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

/** Project, number and date, in signs that every file system takes. */
function fileNameOf(project: string, number: string, amendment: number, day: string): string {
  const plain = project
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
  return `${plain}_${number}${amendment > 0 ? `-A${amendment}` : ''}_${day}.pdf`
}
