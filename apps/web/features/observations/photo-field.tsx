'use client'

import { FieldFrame, type FieldProps } from '#components/field-frame.tsx'
import fieldStyles from '#components/field.module.css'

/** A photograph: a tablet opens its camera, a desk offers its files. */
export function PhotoField({ onFile, ...field }: FieldProps & { onFile: (file: File | null) => void }) {
  return (
    <FieldFrame {...field}>
      {(ties) => (
        <input
          {...ties}
          name={field.name}
          type="file"
          accept="image/*"
          capture="environment"
          className={fieldStyles.input}
          onChange={(event) => onFile(event.currentTarget.files?.[0] ?? null)}
        />
      )}
    </FieldFrame>
  )
}
