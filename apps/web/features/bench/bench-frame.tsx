'use client'

import { useQuery } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { ErrorState } from '#components/error-state.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { benchQueries } from './bench.queries.ts'
import { ClockOffset, clockOffset } from './laboratory-clock.ts'
import { RunningWindows } from './running-windows.tsx'
import styles from './bench.module.css'

/** Around every bench screen: sizes for the bench, the laboratory's clock, and what runs for this person. */
export function BenchFrame({ heading, children }: { heading: ReactNode; children: ReactNode }) {
  const words = useWords()
  const lab = useLaboratory()
  const queue = useQuery(benchQueries.queue(lab.id))
  const offset = queue.data === undefined ? 0 : clockOffset(queue.data.now, queue.dataUpdatedAt)
  return (
    <ClockOffset.Provider value={offset}>
      <div className={`stack ${styles.bench}`}>
        {heading}
        {queue.data === undefined && queue.isError ? (
          <ErrorState what={words('bench.myWork')} error={queue.error} onRetry={() => void queue.refetch()} />
        ) : (
          <RunningWindows tasks={queue.data?.tasks ?? []} />
        )}
        {children}
      </div>
    </ClockOffset.Provider>
  )
}
