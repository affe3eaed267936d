'use client'

import { useState } from 'react'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { FieldFrame, type FieldProps } from './field-frame.tsx'
import styles from './field.module.css'

/** A calendar day. Browsers write days in ways that mix up day and month: what was understood is echoed, with its weekday. */
export function DayField({
  name,
  label,
  hint,
  error,
  size,
  defaultValue = '',
}: FieldProps & { defaultValue?: string }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const [day, setDay] = useState(defaultValue)
  return (
    <FieldFrame
      {...{ name, label, hint, error, size }}
      after={
        <output className={styles.echo}>
          {/^\d{4}-\d\d-\d\d$/.test(day) ? words('common.readAs', { value: format.day(day) }) : ''}
        </output>
      }
    >
      {(ties) => (
        <input
          {...ties}
          name={name}
          type="date"
          value={day}
          onChange={(event) => setDay(event.target.value)}
          className={styles.input}
        />
      )}
    </FieldFrame>
  )
}
