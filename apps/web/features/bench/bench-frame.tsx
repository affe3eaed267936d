'use client'

import { useQuery } from '@tanstack/react-query'
import { useEffect, useRef, type ReactNode } from 'react'
import { ErrorState } from '#components/error-state.tsx'
import { lazyPart } from '#components/lazy-part.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { readySignals } from '#lib/tablet/tell-signal.ts'
import { useWords } from '#lib/words.ts'
import { benchQueries } from './bench.queries.ts'
import { ClockDifference } from './clock-difference.tsx'
import { useKeepInView } from './keep-in-view.ts'
import { ClockOffset, clockOffset } from './laboratory-clock.ts'
import { RunningWindows } from './running-windows.tsx'
import { useWaitingActs } from './use-waiting-acts.ts'
import { stillToDo } from './waiting-acts.ts'
import styles from './bench.module.css'

const HeldHere = lazyPart(() => import('./held-here.tsx').then(({ HeldHere: held }) => held), { quiet: true })

/** Around every bench screen: sizes for the bench, the laboratory's clock, and what runs for this person. */
export function BenchFrame({ heading, children }: { heading: ReactNode; children: ReactNode }) {
  const words = useWords()
  const lab = useLaboratory()
  const frame = useRef<HTMLDivElement>(null)
  useKeepInView(frame)
  useEffect(readySignals, [])
  const queue = useQuery(benchQueries.queue(lab.id))
  const waiting = useWaitingActs()
  const offset = queue.data === undefined ? 0 : clockOffset(queue.data.now, queue.dataUpdatedAt)
  return (
    <ClockOffset.Provider value={offset}>
      <div className={`stack ${styles.bench}`} ref={frame}>
        {heading}
        <ClockDifference offset={offset} />
        {queue.data === undefined && queue.isError ? (
          <ErrorState what={words('bench.myWork')} error={queue.error} onRetry={() => void queue.refetch()} />
        ) : (
          <RunningWindows tasks={stillToDo(queue.data?.tasks ?? [], waiting)} />
        )}
        {children}
        <HeldHere queue={queue.data} />
      </div>
    </ClockOffset.Provider>
  )
}
