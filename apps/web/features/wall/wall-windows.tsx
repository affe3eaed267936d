'use client'

import type { WallWindow } from '@curebook/contract/wall'
import { closingMinutes } from '@curebook/trade/procedure/urgency'
import { fitting, fittingClosing, shareLeft, soonMs, type WallWindows } from '@curebook/trade/procedure/wall'
import { Icon, type IconName } from '#components/icon.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { useSpanWords } from './span-words.ts'
import { More, Part } from './wall-part.tsx'
import styles from './wall.module.css'

/** How many rows the height holds; the style sheet measures them in the same share of the screen. */
const closingPlaces = 5
const nextPlaces = 4

type Phase = 'late' | 'closing' | 'open'
const marks: Record<Phase, IconName> = { late: 'warning', closing: 'clock', open: 'half' }

export function ClosingWindows({ windows, now }: { windows: WallWindows<WallWindow>; now: number }) {
  const words = useWords()
  const { rows, more, moreLate } = fittingClosing(windows, closingPlaces)
  return (
    <Part title={words('wall.closing')} empty={rows.length === 0 ? words('wall.nothingCloses') : null}>
      {rows.map((row) => (
        <ClosingRow key={`${row.code} ${row.stepTitle}`} row={row} now={now} />
      ))}
      <More>{more > 0 && words(moreLate > 0 ? 'wall.moreLate' : 'wall.more', { more, late: moreLate })}</More>
    </Part>
  )
}

function ClosingRow({ row, now }: { row: WallWindow; now: number }) {
  const words = useWords()
  const span = useSpanWords()
  const left = Date.parse(row.closesAt!) - now
  const phase: Phase = left < 0 ? 'late' : left <= closingMinutes * 60_000 ? 'closing' : 'open'
  // Of a window that nothing opens, the last hours are drawn.
  const share = shareLeft(row, now) ?? Math.min(1, left / soonMs)
  return (
    <li className={`${styles.row} ${styles.tall} ${styles[phase]}`}>
      <span className={styles.line}>
        <Specimen row={row} />
        <strong className={styles.left}>
          <Icon name={marks[phase]} />
          {words(phase === 'late' ? 'wall.lateBy' : 'wall.left', { span: span(left) })}
        </strong>
      </span>
      <Step row={row} />
      <svg className={styles.bar} viewBox="0 0 100 4" preserveAspectRatio="none" aria-hidden="true">
        <rect width="100" height="4" className={phase === 'late' ? styles.barLate : styles.barGround} />
        {phase !== 'late' && <rect width={share * 100} height="4" className={styles.barLeft} />}
      </svg>
    </li>
  )
}

export function NextWindows({ rows: all, now }: { rows: readonly WallWindow[]; now: number }) {
  const words = useWords()
  const span = useSpanWords()
  const { instant } = useLaboratoryFormat()
  const { rows, more } = fitting(all, nextPlaces)
  return (
    <Part title={words('wall.next')} empty={rows.length === 0 ? words('wall.nothingOpens') : null}>
      {rows.map((row) => (
        <li key={`${row.code} ${row.stepTitle}`} className={styles.row}>
          <span className={styles.line}>
            <Specimen row={row} />
            <Step row={row} />
            <span className={styles.left}>
              {words('wall.opens', {
                time: instant(row.opensAt!, 'clock'),
                span: span(Date.parse(row.opensAt!) - now),
              })}
            </span>
          </span>
        </li>
      ))}
      <More>{more > 0 && words('wall.more', { more })}</More>
    </Part>
  )
}

function Specimen({ row }: { row: WallWindow }) {
  return (
    <span className={styles.specimen}>
      <b className="reading">{row.code}</b> {row.label}
    </span>
  )
}

function Step({ row }: { row: WallWindow }) {
  const words = useWords()
  return (
    <span className={styles.step}>
      {row.place === null ? row.stepTitle : words('wall.stepAt', { step: row.stepTitle, place: row.place })}
    </span>
  )
}
