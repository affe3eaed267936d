'use client'

import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { formatSpan } from '#lib/laboratory-time.ts'
import { useWords } from '#lib/words.ts'
import { Icon } from './icon.tsx'
import { windowPhase, windowShares, type WindowPhase } from './window-state.ts'
import styles from './window-bar.module.css'

const icons = { pending: 'clock', open: 'bolt', closing: 'clock', over: 'cross' } as const satisfies Record<
  WindowPhase,
  string
>
const DAY_MS = 86_400_000

/**
 * A time window, always drawn alike: when it opens, where now is, when it closes, in words and as a bar. `now` in
 * milliseconds comes from `useTickingNow`, the laboratory's clock. Its countdown is not read out second by second.
 */
export function WindowBar({
  now,
  opensAt,
  closesAt,
  name,
}: {
  now: number
  opensAt: string | null
  closesAt: string | null
  name: string
}) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const opens = opensAt === null ? undefined : Date.parse(opensAt)
  const closes = closesAt === null ? undefined : Date.parse(closesAt)
  const phase = windowPhase(now, opens, closes)
  const shares = windowShares(now, opens, closes)
  const clock = (iso: string) => format.instant(iso, Math.abs(Date.parse(iso) - now) < DAY_MS / 2 ? 'clock' : 'short')
  const span =
    phase === 'pending' ? (opens ?? now) - now : phase === 'over' ? now - (closes ?? now) : (closes ?? now) - now
  const sentence =
    phase === 'open' && closes === undefined
      ? words('common.window.openEnded')
      : words(`common.window.${phase}`, { span: formatSpan(span) })
  return (
    <div className={`${styles.window} ${styles[phase]}`} role="group" aria-label={name}>
      <span className={styles.now} role="timer" aria-live="off">
        <Icon name={icons[phase]} />
        {sentence}
      </span>
      <svg className={styles.track} viewBox="0 0 100 14" preserveAspectRatio="none" aria-hidden="true">
        <rect x="0" y="5" width="100" height="4" fill="var(--rule)" />
        <rect
          x={shares.opens * 100}
          y="3"
          width={Math.max(0, shares.closes - shares.opens) * 100}
          height="8"
          fill={phase === 'over' ? 'var(--lost)' : phase === 'closing' ? 'var(--closing)' : 'var(--settled)'}
        />
        <rect x={shares.now * 100 - 0.6} y="0" width="1.2" height="14" fill="var(--ink)" />
      </svg>
      <span className={styles.words}>
        <span>{opensAt === null ? '' : words('common.window.opensAt', { time: clock(opensAt) })}</span>
        <span>{closesAt === null ? '' : words('common.window.closesAt', { time: clock(closesAt) })}</span>
      </span>
    </div>
  )
}
