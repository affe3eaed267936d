'use client'

import type { DrawSource, Reading } from '@curebook/contract/bench'
import { checkReading } from '@curebook/trade/procedure/reading-check'
import { useEffect, useRef, useState } from 'react'
import { Button } from '#components/button.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { useWords } from '#lib/words.ts'
import type { CodeOutcome } from './code-field.tsx'
import { asSent } from './event-time.ts'
import { takesInput } from './open-field.ts'
import { useReadingLabel } from './reading-label.ts'
import type { ReadingSlot } from './reading-slots.ts'
import type { Readings } from './use-readings.ts'
import { useKeyBurst } from './use-key-burst.ts'
import { balanceLink, useSentWeight } from './use-sent-weight.ts'
import { correctedSource } from './source-choice.ts'
import { SourceField } from './source-field.tsx'
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
  source,
  onCode,
  onClose,
  onDone,
}: {
  /** "12-1 (7KD2)" */
  name: string
  slot: ReadingSlot
  reading: Pick<Reading, 'id' | 'typed' | 'testId'> & Partial<Pick<Reading, 'drawnFrom' | 'instrument'>>
  initial?: string
  readings: Readings
  /** Of a component of a batch: the bags that it may have been weighed out of. */
  source?: DrawSource | undefined
  /** Whether what was scanned is a code; where it is one, what came of it. */
  onCode?: (typed: string) => CodeOutcome | undefined
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
  const [drawnFromId, setDrawnFromId] = useState(reading.drawnFrom?.id ?? '')
  const [other, setOther] = useState('')
  const [error, setError] = useState<string>()
  const [reasonError, setReasonError] = useState<string>()
  /** What an instrument wrote into the field: by its line, or like a keyboard. */
  const sent = useRef<string>(undefined)
  const isNumber = declaration.kind === 'number' || declaration.kind === 'count'
  // The correction keeps what the first was read with: what another balance sends is no value of it.
  const { told } = useSentWeight({
    field: input,
    instrument: reading.instrument ?? undefined,
    on: isNumber,
    typed,
    put: (text) => change(text, true),
    store: goOn,
  })
  useKeyBurst(
    input,
    isNumber
      ? (burst, here) => {
          if (here) return void (sent.current = burst)
          const code = onCode?.(burst)
          if (code !== undefined) return 'wrong' in code ? setError(code.wrong) : undefined
          change(burst, true)
          goOn(burst)
          input.current?.focus()
        }
      : undefined,
  )
  useEffect(() => {
    input.current?.focus()
    input.current?.select()
  }, [])

  function change(text: string, bySending: boolean) {
    if (bySending) sent.current = text
    setTyped(text)
    setError(undefined)
  }
  const isSent = (text: string) => text.trim() === sent.current?.trim()
  /** The value is there: the reason stores it. Printed twice, a weight must not press it. */
  function goOn(text: string) {
    if (isRight(text) && !isSent(text)) first.current?.querySelector('button')?.focus()
  }
  function isRight(text: string): boolean {
    const checked = checkReading(declaration, text)
    const same = text.trim() === reading.typed && drawnFromId === (reading.drawnFrom?.id ?? '')
    setError(checked.ok ? (same ? words('bench.correct.same', { typed: reading.typed }) : undefined) : checked.message)
    if (!checked.ok || same) input.current?.focus()
    return checked.ok && !same
  }
  async function store(reason: string) {
    const taken = time.take()
    if (!isRight(typed) || taken === undefined) return
    const sentence = words('bench.entryLabel', { label: declaration.label, name, typed })
    const slotPlace = { stepKey: slot.stepKey, key: declaration.key, repeat: slot.repeat }
    try {
      await readings.correct({
        testId: reading.testId,
        readingId: reading.id,
        slot: slotPlace,
        typed: typed.trim(),
        reason,
        time: asSent(taken.time, isSent(typed)),
        drawnFromId: source && correctedSource(reading.drawnFrom?.id, drawnFromId),
        label: sentence,
      })
    } catch (cause) {
      return setReasonError(words('bench.notKept', { reason: cause instanceof Error ? cause.message : String(cause) }))
    }
    balanceLink.stored(typed.trim())
    onDone()
  }
  return (
    <form
      noValidate
      {...takesInput}
      className={`${styles.question} stack`}
      aria-label={words('bench.correct.title', { name })}
      onSubmit={(event) => {
        event.preventDefault()
        goOn(typed)
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
          onValue={(text) => change(text, false)}
        />
      )}
      <div role="alert">{told !== undefined && <p className="caution">{told}</p>}</div>
      {source !== undefined && <SourceField source={source} chosenId={drawnFromId} onChoose={setDrawnFromId} />}
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
