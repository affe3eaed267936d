'use client'

import type { BenchTask } from '@curebook/contract/bench'
import Link from 'next/link'
import { useEffect, useMemo, useRef, useState } from 'react'
import { WindowBar } from '#components/window-bar.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useTabletSettings } from '#lib/tablet/use-tablet-settings.ts'
import { useWords } from '#lib/words.ts'
import { placeOf } from './bench-groups.ts'
import { useLaboratoryNow } from './laboratory-clock.ts'
import { runningWindows, type RunningGroup } from './running-groups.ts'
import { StandingWarnings } from './standing-warnings.tsx'
import { useAwake } from './use-awake.ts'
import { useWindowWarnings } from './use-window-warnings.ts'
import { announcementsBetween, type RunningWindow } from './window-announcement.ts'
import { isInLastMinutes } from './window-warnings.ts'
import styles from './bench.module.css'

/** All windows that run for this person, soonest first, on every bench screen; what closes soon is told in time. */
export function RunningWindows({ tasks }: { tasks: readonly BenchTask[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const now = useLaboratoryNow()
  const [{ warnings: minutes }] = useTabletSettings()
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
  const windows = groups.map((group) => ({ ...group, name: nameOf(group) }))
  const { warnings, see } = useWindowWarnings(windows, now)
  useAwake(isInLastMinutes(windows, now, minutes.first))
  const told = useMemo(() => [minutes.first, minutes.last], [minutes])
  return (
    <>
      <StandingWarnings warnings={warnings} onSeen={see} />
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
      <Announcements now={now} windows={windows} also={told} />
    </>
  )
}

function Announcements({
  now,
  windows,
  also,
}: {
  now: number
  windows: readonly RunningWindow[]
  /** Minutes at which this device warns. */
  also: readonly number[]
}) {
  const words = useWords()
  const before = useRef(now)
  const [said, setSaid] = useState('')
  useEffect(() => {
    const found = announcementsBetween(before.current, now, windows, also)
    before.current = now
    if (found.length > 0)
      setSaid(found.map(({ name, minutes }) => words('bench.running.told', { name, minutes })).join(' '))
  }, [now, windows, also, words])
  return (
    <span className="sr-only" role="status">
      {said}
    </span>
  )
}
