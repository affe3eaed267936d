'use client'

import type { ReactNode } from 'react'
import { Button } from '#components/button.tsx'
import { StickyActionBar } from '#components/sticky-action-bar.tsx'
import styles from './bench.module.css'

/** One of a few words, each its own button: a press stores it. */
export function ReadingChoice({
  legend,
  choices,
  state,
  busy,
  onChoose,
}: {
  legend: string
  choices: readonly { readonly key: string; readonly label: string }[]
  state?: ReactNode
  busy: boolean
  onChoose: (key: string) => Promise<void>
}) {
  return (
    <fieldset className={styles.when}>
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
