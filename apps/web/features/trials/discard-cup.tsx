'use client'

import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { useWords } from '#lib/words.ts'

/** Drops the cup that is being typed, after a second look: it is nowhere else. */
export function DiscardCup({ number, onDiscard }: { number: number; onDiscard: () => void }) {
  const words = useWords()
  const [asks, setAsks] = useState(false)
  if (!asks)
    return (
      <Button tone="quiet" onClick={() => setAsks(true)}>
        {words('trials.discard')}
      </Button>
    )
  return (
    <span className="row" role="group" aria-label={words('trials.discardAsk', { number })}>
      <span>{words('trials.discardAsk', { number })}</span>
      <Button key="keep" autoFocus onClick={() => setAsks(false)}>
        {words('trials.discardNot')}
      </Button>
      <Button key="discard" tone="danger" onClick={onDiscard}>
        {words('trials.discardDo')}
      </Button>
    </span>
  )
}
