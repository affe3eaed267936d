'use client'

import { useRef, type ReactNode } from 'react'
import { Button } from '#components/button.tsx'
import { TextField } from '#components/text-field.tsx'
import styles from './bench.module.css'

/** One code, typed or scanned, then Enter. The text stays marked, so that the next one takes its place. */
export function CodeField({
  label,
  hint,
  error,
  button,
  busy,
  focused = false,
  onCode,
}: {
  label: string
  hint?: ReactNode
  error?: string
  button: string
  busy?: boolean
  focused?: boolean
  onCode: (typed: string) => void
}) {
  const input = useRef<HTMLInputElement>(null)
  return (
    <form
      noValidate
      className={styles.codeForm}
      onSubmit={(event) => {
        event.preventDefault()
        onCode(input.current?.value ?? '')
        input.current?.select()
      }}
    >
      <TextField
        ref={input}
        name="code"
        label={label}
        hint={hint}
        error={error}
        size="bench"
        autoFocus={focused}
        autoComplete="off"
        autoCorrect="off"
        autoCapitalize="characters"
        spellCheck={false}
        enterKeyHint="go"
      />
      <Button type="submit" size="bench" busy={busy}>
        {button}
      </Button>
    </form>
  )
}
