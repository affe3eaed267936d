'use client'

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
import { loadReadingFault } from '#features/loads/load-reading-fault.ts'
import { fieldErrors } from '#lib/api-problem.ts'
import { useWords } from '#lib/words.ts'
import { useAddCondition } from './conditions.queries.ts'

/** One value by hand, as the thermometer shows it, at the time at which it was read; kept here until the server has it. */
export function ValueDialog({
  instrumentId,
  code,
  onClose,
}: {
  instrumentId: string
  code: string
  onClose: () => void
}) {
  const words = useWords()
  const time = useEventTime()
  const add = useAddCondition(instrumentId)
  const sending = useSending(time, add)
  const [fault, setFault] = useState<string>()
  const { 'values.0.value': refused, ...others } = fieldErrors(add.error)
  const errors: Record<string, string> = {
    ...others,
    ...(refused === undefined ? {} : { value: refused }),
    ...(fault === undefined ? {} : { value: fault }),
  }
  function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    if (add.isPending) return
    const value = String(new FormData(event.currentTarget).get('value') ?? '').trim()
    const wrong = value === '' ? words('conditions.need') : loadReadingFault('temperature', value)
    setFault(wrong)
    if (wrong !== undefined) return
    const taken = sending.take()
    if (taken === undefined) return
    add.mutate(
      {
        label: words('conditions.entry.value', { code, typed: value }),
        body: { values: [{ id: sending.id('value'), value, unit: '°C' }], time: taken.time },
      },
      { onSuccess: onClose },
    )
  }
  return (
    <Dialog title={words('conditions.addOf', { code })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={submit} aria-busy={add.isPending}>
        <FormErrors errors={errors} />
        <TextField
          name="value"
          label={words('conditions.typed')}
          inputMode="decimal"
          autoComplete="off"
          size="bench"
          error={errors.value}
        />
        <EventTimeField time={time} />
        <div className="row">
          <Button type="submit" tone="main" size="bench" busy={add.isPending}>
            {words('conditions.keep')}
          </Button>
          <SaveState saving={savingOf(add)} />
        </div>
      </form>
    </Dialog>
  )
}
