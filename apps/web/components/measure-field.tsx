'use client'

import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { useState, type ComponentProps } from 'react'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { FieldFrame, type FieldProps } from './field-frame.tsx'
import styles from './field.module.css'

type Control = Omit<
  ComponentProps<'input'>,
  'name' | 'size' | 'className' | 'id' | 'type' | 'inputMode' | 'value' | 'defaultValue' | 'onChange'
>

/**
 * A measured value: plain text, never a number field, never cut or rounded. The unit stands beside it, and what was
 * understood is echoed before anything is stored. Judged when one moves on, not at each key.
 */
export function MeasureField({
  name,
  label,
  hint,
  error,
  size,
  unit,
  quantity,
  mayBeNegative = false,
  wholeNumber = false,
  optional = false,
  value,
  defaultValue = '',
  onValue,
  onBlur,
  ...control
}: FieldProps &
  Control & {
    /** Unit by its name in `@curebook/trade/quantity/unit-table`. */
    readonly unit?: string
    /** Short name for the sentences: "Mass". */
    readonly quantity: string
    readonly mayBeNegative?: boolean
    readonly wholeNumber?: boolean
    readonly optional?: boolean
    readonly value?: string
    readonly defaultValue?: string
    readonly onValue?: (typed: string) => void
  }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const [own, setOwn] = useState(defaultValue)
  const [left, setLeft] = useState(false)
  const typed = value ?? own
  const read = readTypedNumber(typed, { unit, label: quantity, mayBeNegative, wholeNumber })
  const judged =
    left && !read.ok && !(typed.trim() === '' && (optional || error === undefined)) ? read.message : undefined
  const echo = read.ok ? words('common.readAs', { value: format.quantity(read.value, unit) }) : ''
  return (
    <FieldFrame
      {...{ name, label, hint, size }}
      error={error ?? judged}
      after={<output className={styles.echo}>{echo}</output>}
    >
      {(ties) => (
        <span className={styles.box}>
          <input
            {...control}
            {...ties}
            name={name}
            type="text"
            inputMode={mayBeNegative ? 'text' : 'decimal'}
            autoComplete="off"
            autoCorrect="off"
            spellCheck={false}
            value={typed}
            onChange={(event) => {
              setOwn(event.target.value)
              setLeft(false)
              onValue?.(event.target.value)
            }}
            onBlur={(event) => {
              setLeft(true)
              onBlur?.(event)
            }}
            className={`${styles.input} ${styles.reading} ${unit === undefined ? '' : styles.withUnit}`}
          />
          {unit !== undefined && (
            <span className={styles.unit} aria-hidden="true">
              {unit}
            </span>
          )}
        </span>
      )}
    </FieldFrame>
  )
}
