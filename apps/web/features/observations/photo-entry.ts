'use client'

import type { NewOutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { labPath } from '#lib/api-client.ts'
import { newId } from '#lib/new-id.ts'
import { base64Of } from '#features/attachments/file-body.ts'
import { pictureToSend } from './picture.ts'

/** A photograph as an entry of the outbox, to go before what names it in the same lane. */
export async function photoEntry(
  lab: string,
  { file, lane, label }: { file: File; lane: string; label: string },
): Promise<NewOutboxEntry> {
  const { attachmentBytes } = await import('@curebook/contract/attachments')
  const picture = await pictureToSend(file, attachmentBytes)
  const id = newId()
  return {
    id,
    lane,
    path: labPath(lab, 'attachments'),
    body: {
      id,
      name: (picture.name || 'photo.jpg').slice(-200),
      mediaType: picture.type,
      base64: await base64Of(picture),
    },
    label,
    topics: [],
  }
}
