'use client'

import { useId, type ReactNode } from 'react'
import { Icon } from './icon.tsx'
import { usePlainSentence } from './plain-sentence.ts'
import styles from './field.module.css'

/** What every field takes. `name` is the path by which an error finds it. */
export type FieldProps = {
  readonly name: string
  /** Stands above the field, always. For a measured value it names the unit: "Mass after soaking, in grams". */
  readonly label: ReactNode
  readonly hint?: ReactNode
  /** A sentence that says what would be right. */
  readonly error?: string
  readonly size?: 'desk' | 'bench'
}

export type FieldTies = {
  readonly id: string
  readonly 'aria-describedby': string | undefined
  readonly 'aria-invalid': true | undefined
}

/** Label above, hint, error beside, all tied to the control that `children` draws with the given ties. */
export function FieldFrame({
  name,
  label,
  hint,
  error,
  size = 'desk',
  after,
  children,
}: FieldProps & { after?: ReactNode; children: (ties: FieldTies) => ReactNode }) {
  const unique = useId()
  const id = `${fieldId(name)}-${unique}`
  const hintId = hint === undefined ? undefined : `${id}-hint`
  const errorId = error === undefined ? undefined : `${id}-error`
  const describedBy = [errorId, hintId].filter(Boolean).join(' ')
  return (
    <div className={`${styles.field} ${size === 'bench' ? styles.bench : ''}`} data-field={name}>
      <label className={styles.label} htmlFor={id}>
        {label}
      </label>
      {hint !== undefined && (
        <span className={styles.hint} id={hintId}>
          {hint}
        </span>
      )}
      {error !== undefined && <FieldError id={errorId} error={error} />}
      {children({
        id,
        'aria-describedby': describedBy === '' ? undefined : describedBy,
        'aria-invalid': error === undefined ? undefined : true,
      })}
      {after}
    </div>
  )
}

export function FieldError({ id, error }: { id?: string; error: string }) {
  const plainly = usePlainSentence()
  return (
    <span className={styles.error} id={id}>
      <Icon name="warning" />
      <span>{plainly(error)}</span>
    </span>
  )
}

function fieldId(name: string): string {
  return `field-${name.replaceAll(/[^a-zA-Z0-9]+/g, '-')}`
}
