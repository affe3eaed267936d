'use client'

import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { useWords } from '#lib/words.ts'
import { ConflictPanel } from './conflict-panel.tsx'
import { CorrectionForm } from './correction-form.tsx'
import { conflictOf, type Entry } from './reading-entry.ts'
import type { ReadingSlot } from './reading-slots.ts'
import type { WeighedRow } from './use-rack.ts'
import type { Readings } from './use-readings.ts'
import styles from './bench.module.css'

/** What became odd once stored, in the server's own sentences, and values that two people entered. Each is settled in place. */
export function RackQuestions({
  rows,
  slot,
  readings,
  nameOf,
}: {
  rows: readonly WeighedRow[]
  slot: ReadingSlot
  readings: Readings
  nameOf: (row: WeighedRow) => string
}) {
  const words = useWords()
  const [kept, setKept] = useState<ReadonlySet<string>>(new Set())
  const [again, setAgain] = useState<string>()
  const latest = rows.flatMap((row) => {
    const entry = readings.entries.findLast(({ testId }) => testId === row.testId)
    return entry === undefined ? [] : [{ row, entry }]
  })
  const conflicts = latest.flatMap(({ row, entry }) => {
    const stored = conflictOf(entry.problem)
    return stored === undefined ? [] : [{ row, entry, stored }]
  })
  const odd = latest.filter(({ entry }) => (entry.answer?.suspicions.length ?? 0) > 0 && !kept.has(entry.id))
  const correcting = rows.find(({ testId }) => testId === again)
  const standing = correcting === undefined ? undefined : readingOf(correcting)
  return (
    <>
      {conflicts.map(({ row, entry, stored }) => (
        <ConflictPanel
          key={entry.id}
          name={nameOf(row)}
          slot={slot}
          entry={entry}
          stored={stored}
          readings={readings}
        />
      ))}
      {odd.map(({ row, entry }) => (
        <section
          key={entry.id}
          className={`${styles.question} stack stack-tight`}
          role="alert"
          aria-label={words('bench.odd.title', { name: nameOf(row) })}
        >
          <h3>{words('bench.odd.title', { name: nameOf(row) })}</h3>
          {entry.answer?.suspicions.map(({ sentence }) => (
            <p key={sentence}>{sentence}</p>
          ))}
          <div className={styles.buttons}>
            {concerned(rows, row, entry).map((other) => (
              <Button key={other.testId} size="bench" onClick={() => setAgain(other.testId)}>
                {words('bench.odd.again', { name: nameOf(other) })}
              </Button>
            ))}
            <Button size="bench" onClick={() => setKept(new Set([...kept, entry.id]))}>
              {words('bench.odd.keep', { typed: entry.typed })}
            </Button>
          </div>
        </section>
      ))}
      {correcting !== undefined && standing !== undefined && (
        <CorrectionForm
          key={correcting.testId}
          name={nameOf(correcting)}
          slot={slot}
          reading={standing}
          readings={readings}
          onClose={() => setAgain(undefined)}
          onDone={() => setAgain(undefined)}
        />
      )}
    </>
  )
}

/** The specimens of a suspicion that stand in this rack with a reading: both of an exchange, else the one. */
function concerned(rows: readonly WeighedRow[], row: WeighedRow, entry: Entry): readonly WeighedRow[] {
  const codes = new Set(entry.answer?.suspicions.flatMap((suspicion) => suspicion.codes) ?? [])
  const named = rows.filter((other) => codes.has(other.code) && readingOf(other) !== undefined)
  return named.length > 0 ? named : [row]
}

function readingOf({ entry, reading }: WeighedRow) {
  return entry?.answer?.reading ?? reading ?? undefined
}
