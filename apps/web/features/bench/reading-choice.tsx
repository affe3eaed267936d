'use client'

import { useEffect, useRef, type ReactNode } from 'react'
import { Button } from '#components/button.tsx'
import { StickyActionBar } from '#components/sticky-action-bar.tsx'
import styles from './bench.module.css'

/** One of a few words, each its own button: a press stores it. */
export function ReadingChoice({
  legend,
  choices,
  state,
  busy,
  focused,
  onChoose,
}: {
  legend: string
  choices: readonly { readonly key: string; readonly label: string }[]
  state?: ReactNode
  busy: boolean
  /** Asked for now: it comes into view as a field does that takes the focus. No answer has the focus, so that no key gives one by chance. */
  focused: boolean
  onChoose: (key: string) => Promise<void>
}) {
  const group = useRef<HTMLFieldSetElement>(null)
  useEffect(() => {
    if (!focused) return
    group.current?.focus({ preventScroll: true })
    group.current?.scrollIntoView({ block: 'nearest' })
  }, [focused])
  return (
    <fieldset className={`${styles.when} ${styles.asked}`} ref={group} tabIndex={-1}>
      <legend>{legend}</legend>
      <StickyActionBar state={state}>
        {choices.map(({ key, label }) => (
          <Button key={key} size="bench" busy={busy} onClick={() => void onChoose(key)}>
            {label}
          </Button>
        ))}
      </StickyActionBar>
    </fieldset>
  )
}
