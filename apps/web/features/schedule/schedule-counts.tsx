'use client'

import Link from 'next/link'
import { Icon, type IconName } from '#components/icon.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { looks, type Look } from './schedule-view.ts'
import styles from './schedule.module.css'

const icons = {
  late: 'warning',
  'due-today': 'clock',
  stuck: 'bar',
  unassigned: 'ring',
  waiting: 'half',
} as const satisfies Record<Look, IconName>

/** What a manager asks first. Each number leads to exactly the rows that it counts. */
export function ScheduleCounts({
  counts,
  elsewhere,
  show,
}: {
  counts: Readonly<Record<Look, number>>
  /** Undecided deviations of no test: no rows here, so they are named beside the numbers. */
  elsewhere: number
  show: string
}) {
  const words = useWords()
  const lab = useLaboratory()
  return (
    <nav aria-label={words('schedule.questions')}>
      <ul className={styles.counts}>
        {looks.map((look) => (
          <li key={look}>
            <Link
              href={`/l/${lab.short}/schedule?show=${look}`}
              scroll={false}
              className={styles.count}
              data-tone={counts[look] === 0 ? 'calm' : look}
              aria-current={show === look ? 'true' : undefined}
            >
              <span className={styles.number}>{counts[look]}</span>
              <span className="row" style={{ gap: 'var(--gap-2)', flexWrap: 'nowrap' }}>
                <Icon name={icons[look]} />
                {words(`schedule.look.${look}`)}
              </span>
            </Link>
          </li>
        ))}
      </ul>
      {elsewhere > 0 && (
        <p className="small">
          <Link href={`/l/${lab.short}/quality`} prefetch={false}>
            {words('schedule.decisionsElsewhere', { count: elsewhere })}
          </Link>
        </p>
      )}
    </nav>
  )
}
