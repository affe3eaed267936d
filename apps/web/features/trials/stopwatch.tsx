'use client'

import { useEffect, useState } from 'react'
import { Button } from '#components/button.tsx'
import { serverNow } from '#lib/server-clock.ts'
import { useWords } from '#lib/words.ts'
import { breakAt, clockOf, type CupDraft, isRunning, start, takeBack } from './cup-draft.ts'
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
  const begin = () => {
    const at = Date.now()
    onDraft(start(draft, at, Date.parse(serverNow()) - at))
  }
  return (
    <section className={`panel ${styles.watch}`} aria-labelledby="stopwatch">
      <h3 id="stopwatch">{words('trials.watchOf', { number })}</h3>
      <p className={styles.time} role="timer" aria-label={words('trials.watchTime')}>
        {clockOf(draft, now)}
      </p>
      <div className="row">
        {/* Each act has a place of its own, which it keeps: the second tap of a wet finger meets no other one. */}
        <Button
          key="start"
          tone={draft.started === null ? 'main' : 'plain'}
          size="bench"
          busy={draft.started !== null}
          onClick={begin}
        >
          {words('trials.start')}
        </Button>
        <Button
          key="break"
          tone={running ? 'main' : 'plain'}
          size="bench"
          busy={!running}
          onClick={() => onDraft(breakAt(draft, Date.now()))}
        >
          {words('trials.break')}
        </Button>
      </div>
      <p className="quiet small">{words('trials.watchAbout')}</p>
      {draft.stopped !== null && (
        <Button key="again" tone="danger" onClick={begin}>
          {words('trials.startAgain')}
        </Button>
      )}
      {running && draft.earlier !== null && (
        <Button key="back" tone="quiet" onClick={() => onDraft(takeBack(draft))}>
          {words('trials.takeBack', { seconds: draft.mixTime })}
        </Button>
      )}
      <p className="sr-only" role="status">
        {running
          ? words('trials.runs')
          : draft.stopped !== null && draft.timed !== '' && words('trials.stopped', { seconds: draft.timed })}
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
