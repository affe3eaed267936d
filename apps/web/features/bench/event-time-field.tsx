'use client'

import { useId } from 'react'
import { Icon } from '#components/icon.tsx'
import { TextField } from '#components/text-field.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { minutesAgo, type EventChoice } from './event-time.ts'
import type { EventTimeState } from './use-event-time.ts'
import styles from './bench.module.css'

/** Now, 2, 5 or 10 minutes ago, or at a time of day; more than 10 minutes back wants a word. `lasting`: stays for the next one. */
export function EventTimeField({ time, lasting = false }: { time: EventTimeState; lasting?: boolean }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const group = useId()
  const { choice, fault } = time
  const read = time.read()
  const labAt = read.labAt
  const wantsWord = read.ok ? read.wantsWord : read.field === 'word'
  const pills: readonly { readonly choice: EventChoice; readonly label: string }[] = [
    { choice: { how: 'now' }, label: words('bench.when.now') },
    ...minutesAgo.map((minutes) => ({
      choice: { how: 'ago', minutes } as const,
      label: words('bench.when.ago', { minutes }),
    })),
    { choice: { how: 'at', clock: choice.how === 'at' ? choice.clock : '' }, label: words('bench.when.at') },
  ]
  return (
    <fieldset className={styles.when}>
      <legend>{words('bench.when.label')}</legend>
      <div className={styles.pills}>
        {pills.map((pill) => (
          <label key={pill.label} className={styles.pill}>
            <input
              type="radio"
              name={group}
              checked={isSame(pill.choice, choice)}
              onChange={() => time.choose(pill.choice)}
            />
            {pill.label}
          </label>
        ))}
      </div>
      {choice.how === 'at' && (
        <div className={styles.whenFields}>
          <TextField
            name="time.eventAt"
            label={words('bench.when.clock')}
            hint={words('bench.when.clockHint')}
            error={fault?.field === 'clock' ? words(`bench.when.fault.${fault.fault}`) : undefined}
            inputMode="numeric"
            autoComplete="off"
            value={choice.clock}
            onChange={(event) => time.choose({ how: 'at', clock: event.target.value })}
          />
          {wantsWord && (
            <TextField
              name="time.note"
              label={words('bench.when.word')}
              hint={words('bench.when.wordHint')}
              error={fault?.field === 'word' ? words(`bench.when.fault.${fault.fault}`) : undefined}
              autoComplete="off"
              value={time.word}
              onChange={(event) => time.write(event.target.value)}
            />
          )}
        </div>
      )}
      {choice.how !== 'now' && labAt !== undefined && (
        <p className={`${styles.whenNotNow} row`} role="status">
          <Icon name="clock" />
          {words(lasting ? 'bench.when.lasting' : 'bench.when.read', { time: format.instant(labAt, 'long') })}
        </p>
      )}
    </fieldset>
  )
}

function isSame(one: EventChoice, other: EventChoice): boolean {
  return one.how === other.how && (one.how !== 'ago' || (other.how === 'ago' && one.minutes === other.minutes))
}
