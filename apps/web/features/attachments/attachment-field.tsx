'use client'

import { attachmentBytes } from '@curebook/contract/attachment-size'
import { useState } from 'react'
import { FieldFrame, type FieldProps } from '#components/field-frame.tsx'
import fieldStyles from '#components/field.module.css'
import { useWords } from '#lib/words.ts'

/** A file to be sent with a form: a tablet offers its camera. One that is too large is told at once and not taken. */
export function AttachmentField({ onFile, error, ...field }: FieldProps & { onFile: (file: File | null) => void }) {
  const words = useWords()
  const [tooLarge, setTooLarge] = useState(false)
  return (
    <FieldFrame {...field} error={tooLarge ? words('attachments.tooLarge') : error}>
      {(ties) => (
        <input
          {...ties}
          name={field.name}
          type="file"
          accept="image/*,application/pdf,text/csv,.csv"
          className={fieldStyles.input}
          onChange={(event) => {
            const file = event.currentTarget.files?.[0] ?? null
            const fits = file === null || file.size <= attachmentBytes
            setTooLarge(!fits)
            onFile(fits ? file : null)
          }}
        />
      )}
    </FieldFrame>
  )
}
