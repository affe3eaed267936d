'use client'

import type { PutInRow } from '@curebook/trade/procedure/put-in'
import { useLaboratoryNow } from '#features/bench/laboratory-clock.ts'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { formatSpan } from '#lib/laboratory-time.ts'
import { useWords } from '#lib/words.ts'
import styles from './put-in.module.css'

/** The next act in one line, "put in 13-2 at 11:35, start 14-1 at 11:52", with a countdown to the sooner one. */
export function NextActs({ next: { putIn, start } }: { next: { putIn: PutInRow | null; start: PutInRow | null } }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const now = useLaboratoryNow()
  const clock = (ms: number) =>
    format.instant(new Date(ms).toISOString(), Math.abs(ms - now) < 12 * 3_600_000 ? 'clock' : 'short')
  const acts = [
    ...(putIn?.putIn == null
      ? []
      : [{ at: putIn.putIn, text: words('putIn.act.putIn', { label: putIn.label, time: clock(putIn.putIn) }) }]),
    ...(start === null
      ? []
      : [
          {
            at: start.plannedStart,
            text: words('putIn.act.start', { label: start.label, time: clock(start.plannedStart) }),
          },
        ]),
  ].sort((one, other) => one.at - other.at)
  const [first] = acts
  if (first === undefined) return null
  return (
    <section className={`${styles.next} no-print`} aria-label={words('putIn.next')}>
      <p className={styles.acts}>{words('putIn.nextLine', { acts: acts.map(({ text }) => text).join(', ') })}</p>
      <p className={styles.countdown} role="timer" aria-live="off">
        {first.at >= now
          ? words('putIn.in', { span: formatSpan(first.at - now) })
          : words('putIn.ago', { span: formatSpan(now - first.at) })}
      </p>
    </section>
  )
}
