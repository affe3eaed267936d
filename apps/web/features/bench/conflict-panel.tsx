'use client'

import type { Reading } from '@curebook/contract/bench'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { CorrectionForm } from './correction-form.tsx'
import type { Entry } from './reading-entry.ts'
import type { Readings } from './use-readings.ts'
import type { ReadingSlot } from './reading-slots.ts'
import styles from './bench.module.css'

/** Two people read the same thing: both values with who and when. Nothing is overwritten; one of the two is chosen here. */
export function ConflictPanel({
  name,
  slot,
  entry,
  stored,
  readings,
}: {
  name: string
  slot: ReadingSlot
  entry: Entry
  stored: Reading
  readings: Readings
}) {
  const words = useWords()
  const { me } = useLaboratory()
  const [correcting, setCorrecting] = useState(false)
  return (
    <section className={`${styles.conflict} stack`} role="alert" aria-label={words('bench.conflict.title', { name })}>
      <h3>{words('bench.conflict.title', { name })}</h3>
      <dl className="facts">
        <div>
          <dt>{words('bench.conflict.theirs', { who: stored.by.name })}</dt>
          <dd className={styles.value}>{stored.typed}</dd>
          <dd>
            <TimeText at={stored.eventAt} look="short" />
          </dd>
        </div>
        <div>
          <dt>{words('bench.conflict.mine', { who: me.name })}</dt>
          <dd className={styles.value}>{entry.typed}</dd>
          {entry.at !== undefined && (
            <dd>
              <TimeText at={entry.at} look="short" />
            </dd>
          )}
        </div>
      </dl>
      {correcting ? (
        <CorrectionForm
          name={name}
          slot={slot}
          reading={stored}
          initial={entry.typed}
          readings={readings}
          onClose={() => setCorrecting(false)}
          onDone={() => void readings.forget(entry.id)}
        />
      ) : (
        <div className={styles.buttons}>
          <Button size="bench" onClick={() => void readings.forget(entry.id)}>
            {words('bench.conflict.keepTheirs', { typed: stored.typed })}
          </Button>
          <Button size="bench" onClick={() => setCorrecting(true)}>
            {words('bench.conflict.correct', { typed: entry.typed })}
          </Button>
        </div>
      )}
    </section>
  )
}
