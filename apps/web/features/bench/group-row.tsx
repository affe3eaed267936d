'use client'

import Link from 'next/link'
import { WindowBar } from '#components/window-bar.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { kindsOf, placeOf, type TaskGroup } from './bench-groups.ts'
import { useLaboratoryNow } from './laboratory-clock.ts'
import styles from './bench.module.css'

const shownCodes = 6
const shownOfKind = 3

/** "Weigh after cure (W1): 17 discs", with its window, opening where all of them are done. */
export function GroupRow({ group }: { group: TaskGroup }) {
  const words = useWords()
  const lab = useLaboratory()
  const now = useLaboratoryNow()
  const { first, tasks, urgency } = group
  const title = words('bench.row.title', {
    step: first.stepTitle,
    count: words('bench.count', { n: tasks.length, form: first.form }),
  })
  const kinds = kindsOf(tasks)
  const named = (labels: readonly string[], shown: number) =>
    words('bench.row.specimens', {
      labels: labels.slice(0, shown).join(', '),
      more: Math.max(0, labels.length - shown),
    })
  return (
    <Link href={placeOf(lab.short, first)} prefetch={false} className={`${styles.row} ${styles[urgency] ?? ''}`}>
      <span className="stack stack-tight" style={{ gap: 'var(--gap-1)' }}>
        <span className={styles.rowTitle}>{title}</span>
        <span>
          {words(first.act === 'reading' ? 'bench.row.where' : 'bench.row.act', {
            act: first.actLabel,
            method: first.methodName,
            design: first.designName,
          })}
        </span>
        <span className={kinds.length === 0 ? 'quiet reading' : 'quiet'}>
          {kinds.length === 0
            ? named(
                tasks.map(({ label }) => label),
                shownCodes,
              )
            : kinds
                .map(({ form, methodName: method, labels }) =>
                  words('bench.row.kind', { form, method, labels: named(labels, shownOfKind) }),
                )
                .join('; ')}
        </span>
      </span>
      {(group.opensAt !== null || group.closesAt !== null) && (
        <WindowBar
          now={now}
          opensAt={group.opensAt}
          closesAt={group.closesAt}
          name={words('bench.row.window', { step: first.stepTitle, label: first.label })}
        />
      )}
    </Link>
  )
}
