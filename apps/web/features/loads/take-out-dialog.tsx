'use client'

import type { Load, StandingSpecimen } from '@curebook/contract/loads'
import { useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { EventTimeField } from '#features/bench/event-time-field.tsx'
import { useEventTime } from '#features/bench/use-event-time.ts'
import { useSending } from '#features/bench/use-sending.ts'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { useTakeOut } from './loads.queries.ts'
import { MovedOutcome } from './moved-outcome.tsx'

/** Lets a load, or part of it, out with one confirmation. Without constant mass it asks first, and the act is kept all the same. */
export function TakeOutDialog({
  load,
  name,
  specimens,
  onClose,
  onDone,
}: {
  load: Load
  name: string
  specimens: readonly StandingSpecimen[]
  onClose: () => void
  onDone: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const time = useEventTime()
  const takeOut = useTakeOut(lab.id, load.id)
  const sending = useSending(time, takeOut)
  const [rows] = useState(specimens)
  // What an answer told to stand: pressed again for the others, these are out and the temperature is kept already.
  const [kept, setKept] = useState<{ typed: string; done: ReadonlySet<string> }>()
  // As it stood when the dialog opened: afterwards nothing stands in the load any more.
  const [wet] = useState(load.constantMass?.reached === false ? load.constantMass.sentence : undefined)
  const errors = fieldErrors(takeOut.error)
  function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    if (takeOut.isPending) return
    const form = new FormData(event.currentTarget)
    const typed = String(form.get('temperature.typed') ?? '').trim()
    const left = rows.filter(({ testId }) => kept?.done.has(testId) !== true)
    const taken = sending.take()
    if (taken === undefined) return
    takeOut.mutate(
      {
        rows: left.map(({ testId, stepKey }) => ({ id: sending.id(testId), testId, stepKey })),
        time: taken.time,
        temperature:
          typed === '' || typed === kept?.typed
            ? null
            : { id: sending.id(kept ? `temperature ${typed}` : 'temperature'), typed, instrumentId: null },
        word: String(form.get('word') ?? ''),
      },
      {
        onSuccess: ({ outcome }) => {
          onDone()
          const done = outcome.rows.filter((row) => row.outcome === 'done').map((row) => row.id)
          if (done.length === left.length) return onClose()
          setKept({ typed, done: new Set([...(kept?.done ?? []), ...done]) })
        },
      },
    )
  }
  return (
    <Dialog title={words('loads.takeOutOf', { name })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={submit} aria-busy={takeOut.isPending}>
        <FormErrors errors={errors} />
        {takeOut.data !== undefined && <MovedOutcome moved={takeOut.data} specimens={rows} />}
        <p>{rows.map(({ label, code }) => words('loads.named', { label, code })).join(', ')}</p>
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
        <EventTimeField time={time} />
        <div className="row">
          <Button type="submit" tone={wet === undefined ? 'main' : 'danger'} size="bench" busy={takeOut.isPending}>
            {words(wet === undefined ? 'loads.confirmOut' : 'loads.confirmOutWet', { count: rows.length })}
          </Button>
          <SaveState saving={savingOf(takeOut)} />
        </div>
      </form>
    </Dialog>
  )
}
