'use client'

import { FieldFrame, type FieldProps } from '#components/field-frame.tsx'
import fieldStyles from '#components/field.module.css'

/** A file to be sent with a form: a tablet offers its camera. */
export function AttachmentField({ onFile, ...field }: FieldProps & { onFile: (file: File | null) => void }) {
  return (
    <FieldFrame {...field}>
      {(ties) => (
        <input
          {...ties}
          name={field.name}
          type="file"
          accept="image/*,application/pdf,text/csv,.csv"
          className={fieldStyles.input}
          onChange={(event) => onFile(event.currentTarget.files?.[0] ?? null)}
        />
      )}
    </FieldFrame>
  )
}
