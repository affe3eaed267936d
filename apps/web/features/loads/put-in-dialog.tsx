'use client'

import type { Ovens } from '@curebook/contract/loads'
import { useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { CheckboxGroup } from '#components/choices.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { EventTimeField } from '#features/bench/event-time-field.tsx'
import { useEventTime } from '#features/bench/use-event-time.ts'
import { useSending } from '#features/bench/use-sending.ts'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { MovedOutcome } from './moved-outcome.tsx'
import { usePutIn } from './loads.queries.ts'

/** Many specimens into one oven or bath with one confirmation, as a new load or with one that stands there. */
export function PutInDialog({
  instrument,
  waiting,
  onClose,
}: {
  instrument: Ovens['instruments'][number]
  waiting: Ovens['waiting']
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const time = useEventTime()
  const putIn = usePutIn(lab.id)
  const sending = useSending(time, putIn)
  // What an answer told to stand: pressed again for the others, the load is that one and the temperature is kept already.
  const [kept, setKept] = useState<{ into: string; typed: string; done: ReadonlySet<string> }>()
  // As it stood when the dialog opened: the list on the page grows shorter under it.
  const [choices] = useState(waiting)
  const [none, setNone] = useState(false)
  const errors: Record<string, string> = {
    ...fieldErrors(putIn.error),
    ...(none ? { rows: words('loads.needSpecimen') } : {}),
  }
  function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    if (putIn.isPending) return
    const form = new FormData(event.currentTarget)
    const chosen = new Set(form.getAll('rows').map(String))
    const typed = String(form.get('temperature.typed') ?? '').trim()
    const into = String(form.get('load') ?? '')
    const rows = choices.filter(({ testId }) => chosen.has(testId) && kept?.done.has(testId) !== true)
    setNone(rows.length === 0)
    if (rows.length === 0) return
    const taken = sending.take()
    if (taken === undefined) return
    const opens = into === '' && kept === undefined
    const load = into !== '' ? into : (kept?.into ?? sending.id('load'))
    putIn.mutate(
      {
        load,
        opens: opens ? instrument.id : null,
        body: {
          rows: rows.map(({ testId, stepKey }) => ({ id: sending.id(testId), testId, stepKey })),
          time: taken.time,
          temperature:
            typed === '' || (typed === kept?.typed && load === kept.into)
              ? null
              : { id: sending.id(kept ? `temperature ${typed}` : 'temperature'), typed, instrumentId: null },
        },
      },
      {
        onSuccess: ({ outcome }) => {
          const done = outcome.rows.filter((row) => row.outcome === 'done').map((row) => row.id)
          if (done.length === rows.length) return onClose()
          setKept({ into: load, typed, done: new Set([...(kept?.done ?? []), ...done]) })
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
        <EventTimeField time={time} />
        <div className="row">
          <Button type="submit" tone="main" size="bench" busy={putIn.isPending}>
            {words('loads.confirmIn')}
          </Button>
          <SaveState saving={savingOf(putIn)} />
        </div>
      </form>
    </Dialog>
  )
}
