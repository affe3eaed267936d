'use client'

import { useState, type ComponentProps } from 'react'
import { useWords } from '#lib/words.ts'
import { FieldFrame, type FieldProps } from './field-frame.tsx'
import styles from './field.module.css'

type Own = FieldProps & { readonly multiline?: false }
type Control = Omit<ComponentProps<'input'>, 'name' | 'size' | 'className' | 'id'>

/** Text as a person types it. Uncontrolled unless `value` is given. */
export function TextField({ name, label, hint, error, size, type = 'text', ...control }: Own & Control) {
  return (
    <FieldFrame {...{ name, label, hint, error, size }}>
      {(ties) => <input {...control} {...ties} name={name} type={type} className={styles.input} />}
    </FieldFrame>
  )
}

export function TextArea({
  name,
  label,
  hint,
  error,
  size,
  ...control
}: FieldProps & Omit<ComponentProps<'textarea'>, 'name' | 'className' | 'id'>) {
  return (
    <FieldFrame {...{ name, label, hint, error, size }}>
      {(ties) => <textarea {...control} {...ties} name={name} className={styles.input} />}
    </FieldFrame>
  )
}

/** A password that may be pasted, and shown on wish. */
export function PasswordField({ name, label, hint, error, size, autoComplete, ...control }: FieldProps & Control) {
  const [shown, setShown] = useState(false)
  const words = useWords()
  return (
    <FieldFrame {...{ name, label, hint, error, size }}>
      {(ties) => (
        <span className={styles.box}>
          <input
            {...control}
            {...ties}
            name={name}
            type={shown ? 'text' : 'password'}
            autoComplete={autoComplete}
            className={`${styles.input} ${styles.withUnit}`}
            spellCheck={false}
            autoCapitalize="none"
          />
          <button
            type="button"
            className={styles.reveal}
            aria-pressed={shown}
            aria-label={words('common.showPassword')}
            onClick={() => setShown(!shown)}
          >
            {shown ? words('common.hide') : words('common.show')}
          </button>
        </span>
      )}
    </FieldFrame>
  )
}
