'use client'

import type { Attachment, CreateAttachment } from '@curebook/contract/attachments'
import { ApiProblem } from '#lib/api-problem.ts'
import { labPath } from '#lib/api-client.ts'
import { postAs } from '#lib/post-as.ts'
import { isServerAway } from '#lib/server-away.ts'
import { base64Of, typeOfFile } from './file-body.ts'

/** Address of a file, to be saved. */
export function attachmentPath(lab: string, id: string): string {
  return labPath(lab, 'attachments', id)
}

/**
 * Sends a file before what it stands beside. The same file under the same id is the same thing, so a form may be sent
 * again, under the name of whoever chose it. A refusal is told beside `field`.
 */
export async function sendFile(
  lab: { readonly id: string; readonly me: { readonly membershipId: string } },
  { id, file, field }: { id: string; file: File; field: string },
): Promise<Attachment> {
  const body = {
    id,
    name: file.name === '' ? 'file' : file.name.slice(0, 200),
    mediaType: typeOfFile(file),
    base64: await base64Of(file),
  }
  try {
    return await postAs<Attachment>(lab.me, labPath(lab.id, 'attachments'), body as CreateAttachment)
  } catch (error) {
    if (!(error instanceof ApiProblem) || isServerAway(error)) throw error
    const message = error.errors[0]?.message ?? error.message
    throw new ApiProblem(error.code, error.status, error.title, error.detail, [{ path: field, message }], error.extra)
  }
}
