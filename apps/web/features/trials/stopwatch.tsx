'use client'

import { useEffect, useState } from 'react'
import { Button } from '#components/button.tsx'
import { useWords } from '#lib/words.ts'
import { breakAt, clockOf, type CupDraft, isRunning, start } from './cup-draft.ts'
import styles from './trials.module.css'

/** A big stopwatch that starts when the emulsion goes in and writes the mix time at the break. It runs on after a reload. */
export function Stopwatch({
  number,
  draft,
  onDraft,
}: {
  number: number
  draft: CupDraft
  onDraft: (draft: CupDraft) => void
}) {
  const words = useWords()
  const running = isRunning(draft)
  const now = useNow(running)
  return (
    <section className={`panel ${styles.watch}`} aria-labelledby="stopwatch">
      <h3 id="stopwatch">{words('trials.watchOf', { number })}</h3>
      <p className={styles.time} role="timer" aria-label={words('trials.watchTime')}>
        {clockOf(draft, now)}
      </p>
      <div className="row">
        {running ? (
          <Button tone="main" size="bench" onClick={() => onDraft(breakAt(draft, Date.now()))}>
            {words('trials.break')}
          </Button>
        ) : (
          <Button
            tone={draft.started === null ? 'main' : 'plain'}
            size="bench"
            onClick={() => onDraft(start(draft, Date.now()))}
          >
            {words(draft.started === null ? 'trials.start' : 'trials.startAgain')}
          </Button>
        )}
      </div>
      <p className="quiet small">{words('trials.watchAbout')}</p>
      <p className="sr-only" role="status">
        {running ? words('trials.runs') : draft.timed !== '' && words('trials.stopped', { seconds: draft.timed })}
      </p>
    </section>
  )
}

/** Computed from the clock at each tick and when the page is looked at again: a sleeping tablet loses nothing. */
function useNow(running: boolean): number {
  const [now, setNow] = useState(() => Date.now())
  useEffect(() => {
    const tick = () => setNow(Date.now())
    tick()
    if (!running) return
    const timer = setInterval(tick, 200)
    document.addEventListener('visibilitychange', tick)
    return () => {
      clearInterval(timer)
      document.removeEventListener('visibilitychange', tick)
    }
  }, [running])
  return now
}
