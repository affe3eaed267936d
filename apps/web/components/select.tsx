'use client'

import type { ComponentProps } from 'react'
import { FieldFrame, type FieldProps } from './field-frame.tsx'
import styles from './field.module.css'

export type Option = { readonly value: string; readonly label: string; readonly disabled?: boolean }

/** One of a known list. `prompt` is the first line while nothing is chosen. */
export function Select({
  name,
  label,
  hint,
  error,
  size,
  options,
  prompt,
  ...control
}: FieldProps &
  Omit<ComponentProps<'select'>, 'name' | 'size' | 'className' | 'id' | 'children'> & {
    readonly options: readonly Option[]
    readonly prompt?: string
  }) {
  return (
    <FieldFrame {...{ name, label, hint, error, size }}>
      {(ties) => (
        <select {...control} {...ties} name={name} className={styles.input}>
          {prompt !== undefined && <option value="">{prompt}</option>}
          {options.map((option) => (
            <option key={option.value} value={option.value} disabled={option.disabled}>
              {option.label}
            </option>
          ))}
        </select>
      )}
    </FieldFrame>
  )
}
