'use client'

import { useId, type ComponentProps, type ReactNode } from 'react'
import { FieldError } from './field-frame.tsx'
import styles from './field.module.css'

export function Checkbox({
  label,
  error,
  ...control
}: Omit<ComponentProps<'input'>, 'type' | 'className' | 'id'> & {
  readonly name: string
  readonly label: ReactNode
  readonly error?: string
}) {
  const id = useId()
  return (
    <div className={styles.field} data-field={control.name}>
      {error !== undefined && <FieldError id={`${id}-error`} error={error} />}
      <label className={styles.choice}>
        <input
          {...control}
          type="checkbox"
          aria-invalid={error === undefined ? undefined : true}
          aria-describedby={error === undefined ? undefined : `${id}-error`}
        />
        <span>{label}</span>
      </label>
    </div>
  )
}

export type Choice = {
  readonly value: string
  readonly label: ReactNode
  readonly hint?: ReactNode
  readonly disabled?: boolean
}
type GroupProps = {
  readonly name: string
  readonly label: ReactNode
  readonly hint?: ReactNode
  readonly error?: string
  readonly choices: readonly Choice[]
}

/** One of a few, all in view. Uncontrolled with `defaultValue`, or controlled with `value` and `onValue`. */
export function RadioGroup({
  value,
  defaultValue,
  onValue,
  ...group
}: GroupProps & {
  readonly value?: string
  readonly defaultValue?: string
  readonly onValue?: (value: string) => void
}) {
  return (
    <Group {...group}>
      {group.choices.map((choice) => (
        <label key={choice.value} className={styles.choice}>
          <input
            type="radio"
            name={group.name}
            value={choice.value}
            disabled={choice.disabled}
            {...(value === undefined
              ? { defaultChecked: choice.value === defaultValue }
              : { checked: choice.value === value })}
            onChange={() => onValue?.(choice.value)}
          />
          <ChoiceText choice={choice} />
        </label>
      ))}
    </Group>
  )
}

/** Several of a few; FormData holds one entry for each that is chosen. */
export function CheckboxGroup({
  defaultValues = [],
  onValues,
  ...group
}: GroupProps & {
  readonly defaultValues?: readonly string[]
  readonly onValues?: (values: readonly string[]) => void
}) {
  return (
    <Group {...group}>
      {group.choices.map((choice) => (
        <label key={choice.value} className={styles.choice}>
          <input
            type="checkbox"
            name={group.name}
            value={choice.value}
            disabled={choice.disabled}
            defaultChecked={defaultValues.includes(choice.value)}
            onChange={(event) => {
              const boxes =
                event.currentTarget.closest('fieldset')?.querySelectorAll<HTMLInputElement>('input:checked') ?? []
              onValues?.([...boxes].map((box) => box.value))
            }}
          />
          <ChoiceText choice={choice} />
        </label>
      ))}
    </Group>
  )
}

function ChoiceText({ choice }: { choice: Choice }) {
  return (
    <span>
      {choice.label}
      {choice.hint !== undefined && <span className={styles.hint}> {choice.hint}</span>}
    </span>
  )
}

function Group({ name, label, hint, error, children }: GroupProps & { children: ReactNode }) {
  const id = useId()
  const describedBy = [error === undefined ? '' : `${id}-error`, hint === undefined ? '' : `${id}-hint`]
    .filter((part) => part !== '')
    .join(' ')
  return (
    <fieldset
      className={styles.group}
      data-field={name}
      aria-describedby={describedBy === '' ? undefined : describedBy}
    >
      <legend className={styles.legend}>{label}</legend>
      {hint !== undefined && (
        <span className={styles.hint} id={`${id}-hint`}>
          {hint}
        </span>
      )}
      {error !== undefined && <FieldError id={`${id}-error`} error={error} />}
      {children}
    </fieldset>
  )
}
