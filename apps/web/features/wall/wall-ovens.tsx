'use client'

import type { WallOven } from '@curebook/contract/wall'
import { gapMs } from '@curebook/trade/procedure/condition-log'
import { fitting } from '@curebook/trade/procedure/wall'
import { Icon } from '#components/icon.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { More, Part } from './wall-part.tsx'
import styles from './wall.module.css'

const places = 4

/** What stands in ovens and baths; those that hold something first, in the laboratory's order. */
export function WallOvens({ ovens, now }: { ovens: readonly WallOven[]; now: number }) {
  const words = useWords()
  const ordered = [...ovens.filter(({ count }) => count > 0), ...ovens.filter(({ count }) => count === 0)]
  const { rows, more } = fitting(ordered, places)
  return (
    <Part title={words('wall.ovens')} empty={rows.length === 0 ? words('wall.noOvens') : null}>
      {rows.map((oven) => (
        <OvenRow key={oven.code} oven={oven} now={now} />
      ))}
      <More>{more > 0 && words('wall.more', { more })}</More>
    </Part>
  )
}

function OvenRow({ oven, now }: { oven: WallOven; now: number }) {
  const words = useWords()
  const { instant, quantity } = useLaboratoryFormat()
  const limits = oven.limits.map(({ target, tolerance, unit }) =>
    words('wall.limit', { target: quantity(target), tolerance: quantity(tolerance), unit }),
  )
  function outWords({ out }: WallOven): string | null {
    if (out === null) return null
    const [opens, closes] = [out.opensAt, out.closesAt]
    if (closes !== null && Date.parse(closes) < now)
      return words('wall.outLate', { count: out.count, time: instant(closes, 'week') })
    if (opens !== null && Date.parse(opens) > now)
      return words('wall.outFrom', { count: out.count, time: instant(opens, 'week') })
    return closes === null
      ? words('wall.outNow', { count: out.count })
      : words('wall.outBy', { count: out.count, time: instant(closes, 'week') })
  }
  return (
    <li className={`${styles.row} ${styles.tall} ${oven.last?.outside ? styles.late : ''}`}>
      <span className={styles.line}>
        <span className={styles.specimen}>
          <b className="reading">{oven.code}</b>{' '}
          {oven.count === 0 ? words('wall.empty') : words('wall.inside', { count: oven.count })}
        </span>
        <LastValue oven={oven} now={now} />
      </span>
      <span className={styles.step}>
        {[
          oven.since === null ? null : words('wall.since', { time: instant(oven.since, 'week') }),
          outWords(oven),
          limits.length === 0 ? null : words('wall.limits', { limits: limits.join(', ') }),
        ]
          .filter((part) => part !== null)
          .join(' · ')}
      </span>
    </li>
  )
}

function LastValue({ oven: { last, kind }, now }: { oven: WallOven; now: number }) {
  const words = useWords()
  const { instant, quantity } = useLaboratoryFormat()
  if (last === null) return <span className={styles.step}>{words(`wall.noLog.${kind}`)}</span>
  const time = instant(last.at, now - Date.parse(last.at) < 12 * 3_600_000 ? 'clock' : 'week')
  const value = quantity(last.typed, last.unit)
  if (last.outside)
    return (
      <strong className={styles.left}>
        <Icon name="warning" />
        {words('wall.outside', { value, time })}
      </strong>
    )
  const silent = now - Date.parse(last.at) > gapMs
  return <span className={styles.left}>{words(silent ? 'wall.lastValue' : 'wall.value', { value, time })}</span>
}
