'use client'

import type { UsualSpan } from '@curebook/trade/design/usual-inputs'
import { compareDigits } from '@curebook/trade/quantity/digit-conversion'
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

/** Not between the two halves of a click: what a sentence above moves away would not be pressed. */
function afterPress(judge: () => void): void {
  if (document.querySelector(':active') === null) judge()
  else window.addEventListener('mouseup', () => setTimeout(judge), { once: true })
}

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
  usual,
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
    /** Outside it one is asked to read again; what was typed is taken all the same. */
    readonly usual?: UsualSpan | undefined
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
  const unusual =
    left &&
    read.ok &&
    usual !== undefined &&
    (compareDigits(read.value, usual.from) < 0 || compareDigits(read.value, usual.to) > 0)
  return (
    <FieldFrame
      {...{ name, label, hint, size }}
      error={error ?? judged}
      after={
        <output className={styles.echo}>
          {echo}
          {unusual &&
            ` ${words('common.outsideUsual', { from: format.digits(usual.from), to: format.quantity(usual.to, unit), source: usual.source })}`}
        </output>
      }
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
              afterPress(() => setLeft(true))
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
