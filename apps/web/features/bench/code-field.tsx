'use client'

import { useRef, useState, type ReactNode } from 'react'
import { Button } from '#components/button.tsx'
import { Icon } from '#components/icon.tsx'
import { TextField } from '#components/text-field.tsx'
import { tellSignal } from '#lib/tablet/tell-signal.ts'
import { CameraButton } from './camera-button.tsx'
import styles from './bench.module.css'

/** What a code turned out to be: the one that was found, or why none was. */
export type CodeOutcome = { readonly found: string } | { readonly wrong: string }

/**
 * One code, typed or scanned, then Enter. The text stays marked, so that the next one takes its place. Found and wrong look,
 * sound and feel otherwise.
 */
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
  onCode: (typed: string) => CodeOutcome | Promise<CodeOutcome>
}) {
  const input = useRef<HTMLInputElement>(null)
  const [outcome, setOutcome] = useState<CodeOutcome>()
  async function take(typed: string) {
    const next = await onCode(typed)
    setOutcome(next)
    tellSignal('found' in next ? 'found' : 'wrong')
    return 'found' in next
  }
  const found = error === undefined && outcome !== undefined && 'found' in outcome ? outcome.found : undefined
  const wrong = error ?? (outcome !== undefined && 'wrong' in outcome ? outcome.wrong : undefined)
  return (
    <form
      noValidate
      className={`${styles.codeForm} ${found === undefined ? '' : styles.codeFound} ${wrong === undefined ? '' : styles.codeWrong}`}
      onSubmit={(event) => {
        event.preventDefault()
        void take(input.current?.value ?? '')
        input.current?.select()
      }}
    >
      <TextField
        ref={input}
        name="code"
        label={label}
        hint={hint}
        error={wrong}
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
      <CameraButton wrong={wrong} onCode={take} />
      <FoundSign text={found} />
    </form>
  )
}

/** Says which one was found, in words, beside the colour. */
export function FoundSign({ text }: { text: string | undefined }) {
  return (
    <p role="status" className={text === undefined ? 'sr-only' : `${styles.found} row`}>
      {text !== undefined && (
        <>
          <Icon name="tick" />
          {text}
        </>
      )}
    </p>
  )
}
