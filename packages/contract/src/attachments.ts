import { z } from 'zod'
import { attachmentBytes } from './attachment-size.ts'
import { IdSchema, InstantSchema, PersonNameSchema } from './common.ts'

/** Kinds of file that are taken, with what a file chooser is asked for. */
export const attachmentTypes = ['image/jpeg', 'image/png', 'application/pdf', 'text/csv'] as const
export const AttachmentTypeSchema = z.enum(attachmentTypes, 'Attach a JPEG or PNG picture, a PDF or a CSV file')
export type AttachmentType = z.infer<typeof AttachmentTypeSchema>

export { attachmentBytes }

/** A file as its maker sends it: the bytes as base64, its kind checked against what it begins with. */
export const CreateAttachmentSchema = z.strictObject({
  id: IdSchema,
  name: z.string().trim().min(1, 'Give the file a name').max(200),
  mediaType: AttachmentTypeSchema,
  base64: z
    .string()
    .min(1, 'The file is empty')
    .max(Math.ceil(attachmentBytes / 3) * 4, 'A file may be 8 MB at most')
    .refine(isBase64, 'The file is not sent as base64'),
})
export type CreateAttachment = z.infer<typeof CreateAttachmentSchema>

/** A file as it is named where it is shown. */
export const AttachmentSchema = z.object({
  id: IdSchema,
  name: z.string(),
  mediaType: z.string(),
  bytes: z.number().int(),
  /** SHA-256 of the bytes, hexadecimal. */
  sha256: z.string(),
  by: PersonNameSchema,
  at: InstantSchema,
})
export type Attachment = z.infer<typeof AttachmentSchema>

/** Looks at length, ends and signs one by one: a pattern over millions of signs may not end. */
function isBase64(text: string): boolean {
  if (text.length % 4 !== 0) return false
  const end = text.endsWith('==') ? text.length - 2 : text.endsWith('=') ? text.length - 1 : text.length
  for (let at = 0; at < end; at += 1) {
    const code = text.charCodeAt(at)
    const isSign =
      (code >= 65 && code <= 90) || (code >= 97 && code <= 122) || (code >= 47 && code <= 57) || code === 43
    if (!isSign) return false
  }
  return true
}
