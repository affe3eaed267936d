'use client'

import type { Load } from '@curebook/contract/loads'
import { useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { EventTimeField } from '#features/bench/event-time-field.tsx'
import { useEventTime } from '#features/bench/use-event-time.ts'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { checkChoices } from './check-choice.ts'
import { useReadLoad } from './loads.queries.ts'

/** A temperature of the load, or a check specimen weighed warm: one reading, as typed, at its own time. */
export function ReadLoadDialog({
  load,
  name,
  what,
  onClose,
}: {
  load: Load
  name: string
  what: 'temperature' | 'warm-mass'
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const time = useEventTime()
  const read = useReadLoad(lab.id, load.id)
  const [id] = useState(newId)
  const [missing, setMissing] = useState(false)
  const errors: Record<string, string> = {
    ...fieldErrors(read.error),
    ...(missing ? { typed: words(`loads.need.${what}`) } : {}),
  }
  function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    if (read.isPending) return
    const form = new FormData(event.currentTarget)
    const typed = String(form.get('typed') ?? '').trim()
    const taken = time.take()
    setMissing(typed === '')
    if (taken === undefined || typed === '') return
    const testId = what === 'warm-mass' ? String(form.get('testId')) : null
    read.mutate({ id, key: what, testId, typed, instrumentId: null, time: taken.time }, { onSuccess: onClose })
  }
  return (
    <Dialog
      title={words(what === 'temperature' ? 'loads.readTemperatureOf' : 'loads.weighWarmOf', { name })}
      onClose={onClose}
    >
      <form className="stack" noValidate onSubmit={submit} aria-busy={read.isPending}>
        <FormErrors errors={errors} />
        {what === 'warm-mass' && (
          <>
            <p>{words('loads.warmAbout')}</p>
            <Select
              name="testId"
              label={words('loads.checkSpecimen')}
              options={checkChoices(load).map(({ testId, label, code }) => ({
                value: testId,
                label: words('loads.named', { label, code }),
              }))}
              error={errors.testId}
            />
          </>
        )}
        <TextField
          name="typed"
          label={words(`loads.typed.${what}`)}
          inputMode="decimal"
          autoComplete="off"
          size="bench"
          error={errors.typed}
        />
        <EventTimeField time={time} />
        <div className="row">
          <Button type="submit" tone="main" size="bench" busy={read.isPending}>
            {words('loads.keep')}
          </Button>
          <SaveState saving={savingOf(read)} />
        </div>
      </form>
    </Dialog>
  )
}
