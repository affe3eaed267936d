import type { LaboratoryTransaction } from '#platform/laboratory'

export type PreviewRow = {
  id: string
  designId: string
  revisionId: string
  revision: number
  number: string
  amendment: number
  reason: string | null
  renderer: string
  basis: Uint8Array<ArrayBuffer>
  pdfSha256: Uint8Array<ArrayBuffer>
  publicTokenHash: Uint8Array<ArrayBuffer>
  digest: string
  bytes: number
  at: Date
  /** The number of the report that was issued from it. */
  issued: { number: string; amendment: number } | null
}
export type NewPreview = Pick<
  PreviewRow,
  | 'id'
  | 'revisionId'
  | 'number'
  | 'amendment'
  | 'reason'
  | 'renderer'
  | 'basis'
  | 'pdfSha256'
  | 'publicTokenHash'
  | 'at'
> & { signedContentId: string; pdf: Uint8Array<ArrayBuffer> }

/** A preview without its file. */
export async function findPreview({ prisma, actor }: LaboratoryTransaction, id: string): Promise<PreviewRow | null> {
  const { labId } = actor
  const row = await prisma.reportPreview.findUnique({
    where: { labId_id: { labId, id } },
    omit: { pdf: true },
    include: {
      designRevision: { select: { designId: true, number: true } },
      signedContent: { select: { dig: true } },
      report: { select: { number: true, amendment: true } },
    },
  })
  if (!row) return null
  const [size] = await prisma.$queryRaw<[{ bytes: number }]>`
    select octet_length(pdf) as bytes from report_preview where lab_id = ${labId}::uuid and id = ${id}::uuid`
  const { designRevision, signedContent, report, designRevisionId } = row
  return {
    id: row.id,
    designId: designRevision.designId,
    revisionId: designRevisionId,
    revision: designRevision.number,
    number: row.number,
    amendment: row.amendment,
    reason: row.reason,
    renderer: row.renderer,
    basis: row.basis,
    pdfSha256: row.pdfSha256,
    publicTokenHash: row.publicTokenHash,
    digest: Buffer.from(signedContent.dig).toString('hex'),
    bytes: size.bytes,
    at: row.at,
    issued: report,
  }
}

export type ReadyOf = { readonly revisionId: string; readonly basis: Uint8Array }

/** The preview that shows exactly this and was not issued, if there is one. */
export async function findReady(
  { prisma, actor }: LaboratoryTransaction,
  { revisionId, basis }: ReadyOf,
): Promise<string | null> {
  const row = await prisma.reportPreview.findFirst({
    where: {
      ...{ labId: actor.labId, designRevisionId: revisionId, basis: new Uint8Array(basis) },
      report: { is: null },
    },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    select: { id: true },
  })
  return row?.id ?? null
}

/** Previews and issues of one design follow one another. */
export async function lockDesign({ prisma, actor }: LaboratoryTransaction, designId: string): Promise<void> {
  await prisma.$queryRaw`select id from design where lab_id = ${actor.labId}::uuid and id = ${designId}::uuid for update`
}

/** The file of a preview, byte for byte as it is issued. */
export async function findPreviewFile(
  { prisma, actor }: LaboratoryTransaction,
  id: string,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const key = { labId_id: { labId: actor.labId, id } }
  return (await prisma.reportPreview.findUnique({ where: key, select: { pdf: true } }))?.pdf ?? null
}

export async function insertPreview({ prisma, actor }: LaboratoryTransaction, preview: NewPreview): Promise<void> {
  const { revisionId, ...columns } = preview
  await prisma.reportPreview.createMany({
    data: [{ ...columns, labId: actor.labId, designRevisionId: revisionId, byId: actor.membershipId }],
  })
}
