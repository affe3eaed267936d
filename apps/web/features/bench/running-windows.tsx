'use client'

import type { BenchTask } from '@curebook/contract/bench'
import Link from 'next/link'
import { useEffect, useRef, useState } from 'react'
import { WindowBar } from '#components/window-bar.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { placeOf } from './bench-groups.ts'
import { useLaboratoryNow } from './laboratory-clock.ts'
import { runningWindows, type RunningGroup } from './running-groups.ts'
import { announcementsBetween } from './window-announcement.ts'
import styles from './bench.module.css'

/** All windows that run for this person, soonest first, on every bench screen. */
export function RunningWindows({ tasks }: { tasks: readonly BenchTask[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const now = useLaboratoryNow()
  const groups = runningWindows(tasks, now)
  const nameOf = ({ first, tasks: own }: RunningGroup) =>
    words('bench.running.name', {
      step: first.stepTitle,
      first: own
        .slice(0, 2)
        .map(({ label }) => label)
        .join(', '),
      more: Math.max(0, own.length - 2),
    })
  return (
    <>
      {groups.length > 0 && (
        <section aria-label={words('bench.running.title')} className="no-print">
          <ul className={styles.strip} tabIndex={0} aria-label={words('bench.running.title')}>
            {groups.map((group) => (
              <li key={group.key}>
                <Link href={placeOf(lab.short, group.first)} prefetch={false}>
                  {nameOf(group)}
                </Link>
                <WindowBar now={now} opensAt={group.opensAt} closesAt={group.closesAt} name={nameOf(group)} />
              </li>
            ))}
          </ul>
        </section>
      )}
      <Announcements now={now} windows={groups.map((group) => ({ name: nameOf(group), closesAt: group.closesAt }))} />
    </>
  )
}

function Announcements({
  now,
  windows,
}: {
  now: number
  windows: readonly { name: string; closesAt: string | null }[]
}) {
  const words = useWords()
  const before = useRef(now)
  const [said, setSaid] = useState('')
  useEffect(() => {
    const found = announcementsBetween(before.current, now, windows)
    before.current = now
    if (found.length > 0)
      setSaid(found.map(({ name, minutes }) => words('bench.running.told', { name, minutes })).join(' '))
  }, [now, windows, words])
  return (
    <span className="sr-only" role="status">
      {said}
    </span>
  )
}
