'use client'

import type { Reading } from '@curebook/contract/bench'
import { checkReading } from '@curebook/trade/procedure/reading-check'
import { useEffect, useRef, useState } from 'react'
import { Button } from '#components/button.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { useWords } from '#lib/words.ts'
import { useReadingLabel } from './reading-label.ts'
import type { ReadingSlot } from './reading-slots.ts'
import type { Readings } from './use-readings.ts'
import { useEventTime } from './use-event-time.ts'
import styles from './bench.module.css'

const reasons = ['mistyped', 'transposed', 'weighed-again', 'other-specimen'] as const

/**
 * Another value in the place of one that stands, which stays, struck through. Two presses: "Correct", then the reason,
 * which stores. Slips are ordinary: nothing here asks twice.
 */
export function CorrectionForm({
  name,
  slot,
  reading,
  initial = '',
  readings,
  onClose,
  onDone,
}: {
  /** "12-1 (7KD2)" */
  name: string
  slot: ReadingSlot
  reading: Pick<Reading, 'id' | 'typed' | 'testId'>
  initial?: string
  readings: Readings
  onClose: () => void
  onDone: () => void
}) {
  const words = useWords()
  const label = useReadingLabel(slot, name)
  const time = useEventTime()
  const input = useRef<HTMLInputElement>(null)
  const first = useRef<HTMLDivElement>(null)
  const { declaration } = slot
  const [typed, setTyped] = useState(declaration.kind === 'choice' ? reading.typed : initial)
  const [other, setOther] = useState('')
  const [error, setError] = useState<string>()
  const [reasonError, setReasonError] = useState<string>()
  useEffect(() => {
    input.current?.focus()
    input.current?.select()
  }, [])

  function isRight(): boolean {
    const checked = checkReading(declaration, typed)
    const same = typed.trim() === reading.typed
    setError(checked.ok ? (same ? words('bench.correct.same', { typed: reading.typed }) : undefined) : checked.message)
    if (!checked.ok || same) input.current?.focus()
    return checked.ok && !same
  }
  async function store(reason: string) {
    const taken = time.take()
    if (!isRight() || taken === undefined) return
    const sentence = words('bench.entryLabel', { label: declaration.label, name, typed })
    const slotPlace = { stepKey: slot.stepKey, key: declaration.key, repeat: slot.repeat }
    await readings.correct({
      testId: reading.testId,
      readingId: reading.id,
      slot: slotPlace,
      typed: typed.trim(),
      reason,
      time: taken.time,
      label: sentence,
    })
    onDone()
  }
  return (
    <form
      noValidate
      className={`${styles.question} stack`}
      aria-label={words('bench.correct.title', { name })}
      onSubmit={(event) => {
        event.preventDefault()
        if (isRight()) first.current?.querySelector('button')?.focus()
      }}
    >
      <p>{words('bench.correct.stands', { typed: reading.typed, name })}</p>
      {declaration.kind === 'choice' ? (
        <Select
          name="typed"
          label={label}
          error={error}
          options={(declaration.choices ?? []).map((choice) => ({ value: choice.key, label: choice.label }))}
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
        />
      ) : declaration.kind === 'text' ? (
        <TextField
          ref={input}
          name="typed"
          label={label}
          size="bench"
          error={error}
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
        />
      ) : (
        <MeasureField
          ref={input}
          name="typed"
          label={label}
          quantity={declaration.label}
          unit={declaration.unit === 'count' ? undefined : declaration.unit}
          mayBeNegative={declaration.unit === '°C'}
          wholeNumber={declaration.kind === 'count'}
          optional
          size="bench"
          error={error}
          value={typed}
          onValue={(text) => {
            setTyped(text)
            setError(undefined)
          }}
        />
      )}
      <fieldset className={styles.when}>
        <legend>{words('bench.correct.why')}</legend>
        <div className={styles.buttons} ref={first}>
          {reasons.map((reason) => (
            <Button key={reason} size="bench" onClick={() => void store(words(`bench.correct.reason.${reason}`))}>
              {words(`bench.correct.reason.${reason}`)}
            </Button>
          ))}
        </div>
      </fieldset>
      <div className={styles.codeForm}>
        <TextField
          name="reason"
          label={words('bench.correct.other')}
          error={reasonError}
          autoComplete="off"
          value={other}
          onChange={(event) => {
            setOther(event.target.value)
            setReasonError(undefined)
          }}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return
            event.preventDefault()
            storeOther()
          }}
        />
        <Button size="bench" onClick={storeOther}>
          {words('bench.correct.store')}
        </Button>
        <Button size="bench" tone="quiet" onClick={onClose}>
          {words('bench.correct.leave', { typed: reading.typed })}
        </Button>
      </div>
    </form>
  )

  function storeOther() {
    if (other.trim() === '') return setReasonError(words('bench.correct.noReason'))
    void store(other.trim())
  }
}
