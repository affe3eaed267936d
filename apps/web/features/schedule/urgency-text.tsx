'use client'

import type { ScheduleRow } from '@curebook/contract/schedule'
import Link from 'next/link'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { hasNextAct } from './schedule-view.ts'
import styles from './schedule.module.css'

/** How the next act stands to its window, and what holds the test meanwhile, with the way to settle it. */
export function UrgencyText({ row }: { row: ScheduleRow }) {
  const words = useWords()
  const { short } = useLaboratory()
  const { held, urgency, testId } = row
  return (
    <>
      {hasNextAct(row) && (
        <StatusMark status={urgency === 'open' ? 'due' : urgency}>{words(`schedule.urgency.${urgency}`)}</StatusMark>
      )}
      {held !== null && (
        <Link
          href={held === 'decision' ? `/l/${short}/quality` : `/l/${short}/bench/tests/${testId}`}
          prefetch={false}
          className={styles.line}
        >
          {words(`schedule.held.${held}`)}
        </Link>
      )}
    </>
  )
}
