'use client'

import type { Ovens } from '@curebook/contract/loads'
import { useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { CheckboxGroup } from '#components/choices.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MainActs } from '#components/main-acts.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { EventTimeField } from '#features/bench/event-time-field.tsx'
import { InstrumentField } from '#features/bench/instrument-field.tsx'
import { useInstrument } from '#features/bench/remembered-instrument.ts'
import { useEventTime } from '#features/bench/use-event-time.ts'
import { useSending } from '#features/bench/use-sending.ts'
import { fieldErrors } from '#lib/api-problem.ts'
import { useWords } from '#lib/words.ts'
import { loadOfRefused } from './carry-over.ts'
import { MovedOutcome } from './moved-outcome.tsx'
import { loadReadingFault } from './load-reading-fault.ts'
import { useMoveLoad, useRefusedMoves } from './loads.queries.ts'

/** Many specimens into one oven or bath with one confirmation, as a new load or with one that stands there. */
export function PutInDialog({
  instrument,
  waiting,
  readers,
  onClose,
}: {
  instrument: Ovens['instruments'][number]
  waiting: Ovens['waiting']
  readers: Ovens['readers']
  onClose: () => void
}) {
  const words = useWords()
  const time = useEventTime()
  const putIn = useMoveLoad()
  const refusedOf = useRefusedMoves()
  const sending = useSending(time, putIn)
  const thermometers = readers.filter(({ kind }) => kind === 'thermometer')
  const { instrument: thermometer, choose } = useInstrument('thermometer', thermometers)
  // What an answer told to stand: pressed again for the others, the load is that one and the temperature is kept already.
  const [kept, setKept] = useState<{ into: string; typed: string; done: ReadonlySet<string> }>()
  // As it stood when the dialog opened: the list on the page grows shorter under it.
  const [choices] = useState(waiting)
  const [none, setNone] = useState(false)
  const [fault, setFault] = useState<string>()
  const errors: Record<string, string> = {
    ...fieldErrors(putIn.error),
    ...(none ? { rows: words('loads.needSpecimen') } : {}),
    ...(fault === undefined ? {} : { 'temperature.typed': fault }),
  }
  const namesOf = (testIds: readonly string[]) =>
    choices
      .filter(({ testId }) => testIds.includes(testId))
      .map(({ label, code }) => words('loads.named', { label, code }))
      .join(', ')
  function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    if (putIn.isPending) return
    const form = new FormData(event.currentTarget)
    const chosen = new Set(form.getAll('rows').map(String))
    const typed = String(form.get('temperature.typed') ?? '').trim()
    const into = String(form.get('load') ?? '')
    const rows = choices.filter(({ testId }) => chosen.has(testId) && kept?.done.has(testId) !== true)
    setNone(rows.length === 0)
    const wrong = typed === '' ? undefined : loadReadingFault('temperature', typed)
    setFault(wrong)
    if (rows.length === 0 || wrong !== undefined) return
    const taken = sending.take()
    if (taken === undefined) return
    const sent = rows.map(({ testId, stepKey }) => ({ id: sending.id(testId), testId, stepKey }))
    const anew = () =>
      loadOfRefused(
        refusedOf('in', sent),
        instrument.id,
        instrument.loads.map(({ id }) => id),
      ) ?? sending.id('load')
    const load = into !== '' ? into : (kept?.into ?? anew())
    const labelOf = (testIds: readonly string[]) =>
      words('loads.entry.in', { code: instrument.code, names: namesOf(testIds) })
    const label = labelOf(rows.map(({ testId }) => testId))
    putIn.mutate(
      {
        way: 'in',
        load,
        labelOf,
        label: typed === '' ? label : words('loads.entry.read', { entry: label, typed }),
        body: {
          // Said each time: whichever arrives first opens the load.
          opens: instrument.id,
          rows: sent,
          time: taken.time,
          temperature:
            typed === '' || (typed === kept?.typed && load === kept.into)
              ? null
              : {
                  id: sending.id(kept ? `temperature ${typed}` : 'temperature'),
                  typed,
                  instrumentId: thermometer?.id ?? null,
                },
        },
      },
      {
        onSuccess: (moved) => {
          const done = moved.filter(({ outcome }) => outcome !== 'refused').map(({ id }) => id)
          if (done.length === rows.length) return onClose()
          // Where nothing went in, nothing was opened and no temperature kept.
          if (done.length > 0) setKept({ into: load, typed, done: new Set([...(kept?.done ?? []), ...done]) })
        },
      },
    )
  }
  return (
    <Dialog title={words('loads.putInNamed', { code: instrument.code })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={submit} aria-busy={putIn.isPending}>
        <FormErrors errors={errors} />
        {putIn.data !== undefined && <MovedOutcome moved={putIn.data} specimens={choices} />}
        {instrument.loads.length > 0 && (
          <Select
            name="load"
            label={words('loads.into')}
            options={[
              { value: '', label: words('loads.newLoad') },
              ...instrument.loads.map((load, index) => ({
                value: load.id,
                label: words('loads.load', { number: index + 1, code: instrument.code }),
              })),
            ]}
          />
        )}
        <CheckboxGroup
          name="rows"
          label={words('loads.which')}
          error={errors.rows}
          choices={choices.map(({ testId, label, code, stepTitle, designName }) => ({
            value: testId,
            label: words('loads.named', { label, code }),
            hint: [stepTitle, designName ?? ''].filter((part) => part !== '').join(', '),
          }))}
        />
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
          <Button type="submit" tone="main" size="bench" busy={putIn.isPending}>
            {words('loads.confirmIn')}
          </Button>
          <SaveState saving={savingOf(putIn)} />
        </MainActs>
      </form>
    </Dialog>
  )
}
