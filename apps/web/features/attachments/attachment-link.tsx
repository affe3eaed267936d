'use client'

import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { attachmentPath } from './attachments.queries.ts'

/** Saves a file that stands beside a result; for whoever may read files. */
export function AttachmentLink({ file }: { file: { readonly id: string; readonly name: string } }) {
  const words = useWords()
  const lab = useLaboratory()
  if (!lab.may('attachment:read')) return <span className="small">{file.name}</span>
  return (
    <a className="small" href={attachmentPath(lab.id, file.id)} download={file.name}>
      {words('attachments.save', { name: file.name })}
    </a>
  )
}
