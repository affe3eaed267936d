'use client'

import { useId, type ComponentProps } from 'react'
import { FieldError } from '#components/field-frame.tsx'
import styles from './designs.module.css'

/** A field inside a table of fields: its row and column are its label, its error stands beneath it. */
export function CellField({
  name,
  label,
  error,
  short = false,
  inputMode = 'decimal',
  ...control
}: Omit<ComponentProps<'input'>, 'className' | 'type'> & {
  name: string
  label: string
  error?: string
  short?: boolean
}) {
  const errorId = useId()
  return (
    <span data-field={name}>
      <input
        {...control}
        name={name}
        type="text"
        inputMode={inputMode}
        autoComplete="off"
        spellCheck={false}
        aria-label={label}
        aria-invalid={error === undefined ? undefined : true}
        aria-describedby={error === undefined ? undefined : errorId}
        className={`${styles.cell} ${short ? styles.short : ''}`}
      />
      {error !== undefined && (
        <span className={styles.cellError}>
          <FieldError id={errorId} error={error} />
        </span>
      )}
    </span>
  )
}
