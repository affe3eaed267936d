'use client'

import type { DrawSource, Reading } from '@curebook/contract/bench'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { ConflictPanel } from './conflict-panel.tsx'
import { CorrectionForm } from './correction-form.tsx'
import { EntryState } from './entry-state.tsx'
import { conflictOf } from './reading-entry.ts'
import { placeOfSlot, readingsIn, slotKey, type ReadingSlot } from './reading-slots.ts'
import { sourceOf } from './source-choice.ts'
import { AsTyped } from './target-line.tsx'
import { undoneIds } from './undo.ts'
import { entryFor, type Readings } from './use-readings.ts'
import styles from './bench.module.css'

/** One slot of a step: what stands, what it took the place of, what is on its way, and "Correct". */
export function RecordedReading({
  slot,
  name,
  testId,
  all,
  readings,
  mayCorrect,
  sources,
}: {
  slot: ReadingSlot
  name: string
  testId: string
  all: readonly Reading[]
  readings: Readings
  mayCorrect: boolean
  sources: readonly DrawSource[]
}) {
  const words = useWords()
  const { me } = useLaboratory()
  const [correcting, setCorrecting] = useState(false)
  const { current, earlier } = readingsIn(slot, all)
  const entry = entryFor(readings.entries, testId, placeOfSlot(slot), current?.id)
  const { declaration, repeat } = slot
  const conflict = conflictOf(entry?.problem)
  const undone = undoneIds(readings.entries)
  const place = slotKey(placeOfSlot(slot))
  /** Taken back before the record ever showed it. */
  const takenBack = readings.entries.filter(
    (other) =>
      other.testId === testId &&
      undone.has(other.id) &&
      other.slot !== undefined &&
      slotKey(other.slot) === place &&
      !all.some(({ id }) => id === other.id),
  )
  const refusedUndo = readings.entries.find(({ undoes, state }) => undoes === current?.id && state === 'refused')
  if (current === undefined && entry === undefined && earlier.length === 0 && takenBack.length === 0) return null
  return (
    <li>
      <span>
        {declaration.label}
        {(declaration.repeats ?? 1) > 1 && ` ${words('bench.repeat', { repeat, repeats: declaration.repeats ?? 1 })}`}
      </span>
      {current !== undefined && (
        <>
          <span className={entry === undefined || entry.state === 'refused' ? styles.valueSmall : styles.struck}>
            <TypedValue slot={slot} reading={current} />
          </span>
          <ReadBy reading={current} />
          {current.drawnFrom !== null && (
            <span className="quiet">{words('bench.source.from', { code: current.drawnFrom.code })}</span>
          )}
          {current.transcribed && <FromPaper reading={current} />}
          {/* A correction is taken with its reason; nothing was asked. */}
          {current.confirmedOdd && current.supersedes === null && (
            <span className="quiet">{words('bench.keptAsked')}</span>
          )}
          {current.waits && <StatusMark status="waiting">{words('bench.waitsForRelease')}</StatusMark>}
        </>
      )}
      {entry !== undefined && (
        <>
          <span className={styles.valueSmall}>{choiceLabel(slot, entry.typed)}</span>
          <span className="quiet">{me.name}</span>
          {conflict === undefined && <EntryState entry={entry} readings={readings} />}
        </>
      )}
      {mayCorrect && current !== undefined && entry === undefined && !correcting && (
        <Button
          onClick={() => setCorrecting(true)}
          aria-label={words('bench.correct.button', { label: declaration.label, name })}
        >
          {words('bench.correct.short')}
        </Button>
      )}
      {current !== undefined && refusedUndo !== undefined && <EntryState entry={refusedUndo} readings={readings} />}
      {takenBack.map((other) => (
        <span key={other.id} className="quiet" style={{ flexBasis: '100%' }}>
          <s>{choiceLabel(slot, other.typed)}</s>{' '}
          {words('bench.withdrawn', { by: me.name, reason: words('bench.correct.reason.mistyped') })}
        </span>
      ))}
      {earlier.map((reading, index) => (
        <span key={reading.id} className="quiet" style={{ flexBasis: '100%' }}>
          <s>
            <TypedValue slot={slot} reading={reading} />
          </s>{' '}
          {reading.withdrawn === undefined
            ? words('bench.superseded', {
                by: (index === 0 ? current : earlier[index - 1])?.by.name ?? '',
                reason: (index === 0 ? current : earlier[index - 1])?.supersedes?.reason ?? '',
              })
            : words('bench.withdrawn', { by: reading.withdrawn.by.name, reason: reading.withdrawn.reason })}{' '}
          <ReadBy reading={reading} />
        </span>
      ))}
      {conflict !== undefined && entry !== undefined && (
        <div style={{ flexBasis: '100%' }}>
          <ConflictPanel name={name} slot={slot} entry={entry} stored={conflict} readings={readings} />
        </div>
      )}
      {correcting && current !== undefined && (
        <div style={{ flexBasis: '100%' }}>
          <CorrectionForm
            name={name}
            slot={slot}
            reading={current}
            readings={readings}
            source={sourceOf(sources, declaration.target?.component)}
            onClose={() => setCorrecting(false)}
            onDone={() => setCorrecting(false)}
          />
        </div>
      )}
    </li>
  )
}

/** Entered from a sheet, which stands behind it where it was photographed. */
function FromPaper({ reading }: { reading: Reading }) {
  const words = useWords()
  const lab = useLaboratory()
  const { attachment } = reading
  if (attachment === null) return <span className="quiet">{words('bench.fromPaper')}</span>
  return (
    <a className="quiet" href={labPath(lab.id, 'attachments', attachment.id)} download={attachment.name}>
      {words('bench.fromPaper')}
    </a>
  )
}

function choiceLabel({ declaration }: ReadingSlot, typed: string): string {
  return declaration.choices?.find(({ key }) => key === typed)?.label ?? typed
}

function TypedValue({ slot, reading }: { slot: ReadingSlot; reading: Reading }) {
  return <AsTyped typed={choiceLabel(slot, reading.typed)} unit={slot.declaration.unit} />
}

/** Who read it and when; when it was entered too, where that was later. */
function ReadBy({ reading }: { reading: Reading }) {
  const words = useWords()
  const later = Math.abs(Date.parse(reading.receivedAt) - Date.parse(reading.eventAt)) >= 60_000
  return (
    <span className="quiet">
      {reading.by.name}, <TimeText at={reading.eventAt} look="short" />
      {later && (
        <>
          {' '}
          {words('bench.entered')} <TimeText at={reading.receivedAt} look="short" />
        </>
      )}
      {reading.instrument !== null && `, ${reading.instrument.code}`}
    </span>
  )
}
