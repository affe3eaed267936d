'use client'

import type { Load, Ovens, StandingSpecimen } from '@curebook/contract/loads'
import { useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MainActs } from '#components/main-acts.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { EventTimeField } from '#features/bench/event-time-field.tsx'
import { InstrumentField } from '#features/bench/instrument-field.tsx'
import { useInstrument } from '#features/bench/remembered-instrument.ts'
import { useEventTime } from '#features/bench/use-event-time.ts'
import { useSending } from '#features/bench/use-sending.ts'
import { fieldErrors } from '#lib/api-problem.ts'
import { useWords } from '#lib/words.ts'
import { loadReadingFault } from './load-reading-fault.ts'
import { useMoveLoad } from './loads.queries.ts'
import { MovedOutcome } from './moved-outcome.tsx'

/** Lets a load, or part of it, out with one confirmation. Without constant mass it asks first, and the act is kept all the same. */
export function TakeOutDialog({
  load,
  name,
  specimens,
  readers,
  onClose,
  onDone,
}: {
  load: Load
  name: string
  specimens: readonly StandingSpecimen[]
  readers: Ovens['readers']
  onClose: () => void
  onDone: () => void
}) {
  const words = useWords()
  const time = useEventTime()
  const takeOut = useMoveLoad()
  const sending = useSending(time, takeOut)
  const thermometers = readers.filter(({ kind }) => kind === 'thermometer')
  const { instrument: thermometer, choose } = useInstrument('thermometer', thermometers)
  const [rows] = useState(specimens)
  // What an answer told to stand: pressed again for the others, these are out and the temperature is kept already.
  const [kept, setKept] = useState<{ typed: string; done: ReadonlySet<string> }>()
  // As it stood when the dialog opened: afterwards nothing stands in the load any more.
  const [wet] = useState(load.constantMass?.reached === false ? load.constantMass.sentence : undefined)
  const [fault, setFault] = useState<string>()
  const errors: Record<string, string> = {
    ...fieldErrors(takeOut.error),
    ...(fault === undefined ? {} : { 'temperature.typed': fault }),
  }
  const namesOf = (testIds: readonly string[]) =>
    rows
      .filter(({ testId }) => testIds.includes(testId))
      .map(({ label, code }) => words('loads.named', { label, code }))
      .join(', ')
  function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    if (takeOut.isPending) return
    const form = new FormData(event.currentTarget)
    const typed = String(form.get('temperature.typed') ?? '').trim()
    const left = rows.filter(({ testId }) => kept?.done.has(testId) !== true)
    const wrong = typed === '' ? undefined : loadReadingFault('temperature', typed)
    setFault(wrong)
    const taken = wrong === undefined ? sending.take() : undefined
    if (taken === undefined) return
    const labelOf = (testIds: readonly string[]) => words('loads.entry.out', { name, names: namesOf(testIds) })
    const label = labelOf(left.map(({ testId }) => testId))
    takeOut.mutate(
      {
        way: 'out',
        load: load.id,
        labelOf,
        label: typed === '' ? label : words('loads.entry.read', { entry: label, typed }),
        body: {
          rows: left.map(({ testId, stepKey }) => ({ id: sending.id(testId), testId, stepKey })),
          time: taken.time,
          temperature:
            typed === '' || typed === kept?.typed
              ? null
              : {
                  id: sending.id(kept ? `temperature ${typed}` : 'temperature'),
                  typed,
                  instrumentId: thermometer?.id ?? null,
                },
          word: String(form.get('word') ?? ''),
        },
      },
      {
        onSuccess: (moved) => {
          onDone()
          const done = moved.filter(({ outcome }) => outcome !== 'refused').map(({ id }) => id)
          if (done.length === left.length) return onClose()
          // Where nothing came out, no temperature was kept.
          if (done.length > 0) setKept({ typed, done: new Set([...(kept?.done ?? []), ...done]) })
        },
      },
    )
  }
  return (
    <Dialog title={words('loads.takeOutOf', { name })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={submit} aria-busy={takeOut.isPending}>
        <FormErrors errors={errors} />
        {takeOut.data !== undefined && <MovedOutcome moved={takeOut.data} specimens={rows} />}
        <p>{namesOf(rows.map(({ testId }) => testId))}</p>
        {wet !== undefined && (
          <>
            <p className="caution" role="note">
              {words('loads.notDry', { sentence: wet })}
            </p>
            <TextField
              name="word"
              label={words('loads.word')}
              hint={words('loads.wordHint')}
              autoComplete="off"
              error={errors.word}
            />
          </>
        )}
        <TextField
          name="temperature.typed"
          label={words('loads.temperature')}
          hint={words('loads.temperatureHint')}
          inputMode="decimal"
          autoComplete="off"
          error={errors['temperature.typed']}
        />
        <InstrumentField fitting={thermometers} chosen={thermometer} needed={false} onChoose={choose} />
        <EventTimeField time={time} />
        <MainActs>
          <Button type="submit" tone={wet === undefined ? 'main' : 'danger'} size="bench" busy={takeOut.isPending}>
            {words(wet === undefined ? 'loads.confirmOut' : 'loads.confirmOutWet', { count: rows.length })}
          </Button>
          <SaveState saving={savingOf(takeOut)} />
        </MainActs>
      </form>
    </Dialog>
  )
}
