import type { Attachment } from '@curebook/contract/attachments'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personColumns, personName } from '#platform/row-values'

/** A file without its bytes; null where there is none. */
export async function findAttachment({ prisma, actor }: LaboratoryTransaction, id: string): Promise<Attachment | null> {
  const row = await prisma.attachment.findUnique({
    where: { labId_id: { labId: actor.labId, id } },
    include: { by: { select: personColumns } },
  })
  return (
    row && {
      id: row.id,
      name: row.name,
      mediaType: row.mediaType,
      bytes: row.bytes,
      sha256: Buffer.from(row.sha256).toString('hex'),
      by: personName(row.by),
      at: row.at.toISOString(),
    }
  )
}

export type StoredFile = { readonly name: string; readonly mediaType: string; readonly body: Uint8Array }

export async function findFile({ prisma, actor }: LaboratoryTransaction, id: string): Promise<StoredFile | null> {
  const row = await prisma.attachmentBody.findUnique({
    where: { labId_attachmentId: { labId: actor.labId, attachmentId: id } },
    include: { attachment: { select: { name: true, mediaType: true } } },
  })
  return row && { ...row.attachment, body: row.body }
}

/** Writes a file and its bytes; the database refuses bytes that are not those named. */
export async function insertFile(
  { prisma, actor, at }: LaboratoryTransaction,
  { id, name, mediaType, body, sha256 }: StoredFile & { id: string; sha256: Buffer },
): Promise<void> {
  const { labId } = actor
  const bytes = new Uint8Array(body)
  const facts = { mediaType, bytes: bytes.length, sha256: new Uint8Array(sha256), name }
  await prisma.attachment.createMany({ data: [{ ...facts, labId, id, byId: actor.membershipId, at }] })
  await prisma.attachmentBody.createMany({ data: [{ labId, attachmentId: id, body: bytes }] })
}
