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
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { useAddCondition } from './conditions.queries.ts'

/** One value by hand, as the thermometer shows it, at the time at which it was read. */
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
  const lab = useLaboratory()
  const time = useEventTime()
  const add = useAddCondition(lab.id, instrumentId)
  const sending = useSending(time, add)
  const [missing, setMissing] = useState(false)
  const { 'values.0.value': refused, ...others } = fieldErrors(add.error)
  const errors: Record<string, string> = {
    ...others,
    ...(refused === undefined ? {} : { value: refused }),
    ...(missing ? { value: words('conditions.need') } : {}),
  }
  function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    if (add.isPending) return
    const value = String(new FormData(event.currentTarget).get('value') ?? '').trim()
    setMissing(value === '')
    if (value === '') return
    const taken = sending.take()
    if (taken === undefined) return
    add.mutate({ values: [{ id: sending.id('value'), at: taken.labAt, value, unit: '°C' }] }, { onSuccess: onClose })
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
