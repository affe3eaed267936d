import { type Attachment, attachmentBytes, type CreateAttachment } from '@curebook/contract/attachments'
import { createHash } from 'node:crypto'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { findAttachment, findFile, insertFile, type StoredFile } from './attachments.repository.ts'
import { kindOfFile } from './file-kind.ts'

export type AttachmentsService = ReturnType<typeof createAttachmentsService>

const kindWords = {
  'image/jpeg': 'a JPEG picture',
  'image/png': 'a PNG picture',
  'application/pdf': 'a PDF',
  'text/csv': 'a CSV file',
} as const

/** Files that stand beside results: pictures, certificates, lists. Kept once, as they came, with their SHA-256. */
export function createAttachmentsService({ laboratory }: { laboratory: Laboratory }) {
  return {
    create: (actor: Actor, { base64, ...input }: CreateAttachment) => {
      const body = Buffer.from(base64, 'base64')
      refuseFile(input, body)
      const sha256 = createHash('sha256').update(body).digest()
      const digest = sha256.toString('hex')
      return createOnce(laboratory, actor, {
        subjectKind: 'attachment',
        id: input.id,
        input: { ...input, sha256: digest },
        find: (tx) => findAttachment(tx, input.id),
        create: async (tx): Promise<Attachment> => {
          await insertFile(tx, { ...input, body, sha256 })
          tx.record({
            action: 'attachment:create',
            subjectKind: 'attachment',
            subjectId: input.id,
            topics: [],
            content: { name: input.name, mediaType: input.mediaType, bytes: String(body.length), sha256: digest },
          })
          return (await findAttachment(tx, input.id))!
        },
      })
    },

    /** @throws AppError `not-found` */
    read: (actor: Actor, id: string): Promise<StoredFile> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const file = await findFile(tx, id)
        if (!file) throw notFound('file')
        return file
      }),

    /** Refuses, beside the field, a file that is not here. For another feature's transaction. */
    assertIn: async (tx: LaboratoryTransaction, id: string, path: string): Promise<void> => {
      if (!(await findAttachment(tx, id)))
        throw invalidField(path, 'There is no such file in this laboratory: attach it again.')
    },
  }
}

function refuseFile({ mediaType }: Pick<CreateAttachment, 'mediaType'>, body: Buffer): void {
  if (body.length > attachmentBytes)
    throw new AppError('too-large', 'A file may be 8 MB at most: make the picture smaller.', {
      errors: [{ path: 'base64', message: 'A file may be 8 MB at most: make the picture smaller.' }],
    })
  const kind = kindOfFile(body)
  if (kind === mediaType) return
  const found = kind ? `it is ${kindWords[kind]} by what it begins with` : 'what it begins with is not one'
  throw invalidField(
    'base64',
    `The file calls itself ${kindWords[mediaType]}, but ${found}. Attach a JPEG or PNG picture, a PDF or a CSV file.`,
  )
}
