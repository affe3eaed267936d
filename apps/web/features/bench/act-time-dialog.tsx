'use client'

import type { StepEvent } from '@curebook/contract/bench'
import { useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { TimeText } from '#components/time-text.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { useCorrectAct } from './bench.queries.ts'
import { EventTimeField } from './event-time-field.tsx'
import { useEventTime } from './use-event-time.ts'
import { useSending } from './use-sending.ts'

/** The time of a start or end is put right: the first stays on record, windows and logs are judged anew. */
export function ActTimeDialog({
  testId,
  event,
  label,
  onClose,
}: {
  testId: string
  event: StepEvent
  label: string
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const time = useEventTime()
  const correct = useCorrectAct(lab.id, testId, event.id)
  const sending = useSending(time, correct)
  const [reasonless, setReasonless] = useState(false)
  const errors: Record<string, string> = {
    ...fieldErrors(correct.error),
    ...(reasonless ? { reason: words('bench.actTime.needReason') } : {}),
  }
  function submit(submitted: FormEvent<HTMLFormElement>) {
    submitted.preventDefault()
    if (correct.isPending) return
    const reason = String(new FormData(submitted.currentTarget).get('reason') ?? '').trim()
    setReasonless(reason === '')
    if (reason === '') return
    const taken = sending.take()
    if (taken === undefined) return
    correct.mutate({ id: sending.id('act'), reason, time: taken.time }, { onSuccess: onClose })
  }
  return (
    <Dialog title={words('bench.actTime.title', { label })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={submit} aria-busy={correct.isPending}>
        <FormErrors errors={errors} />
        <p>
          {label} <TimeText at={event.eventAt} look="short" />, {event.by.name}
        </p>
        <EventTimeField time={time} />
        <TextField
          name="reason"
          label={words('bench.actTime.reason')}
          hint={words('bench.actTime.reasonHint')}
          autoComplete="off"
          error={errors.reason}
        />
        <div className="row">
          <Button type="submit" tone="main" size="bench" busy={correct.isPending}>
            {words('bench.actTime.keep')}
          </Button>
          <SaveState saving={savingOf(correct)} />
        </div>
      </form>
    </Dialog>
  )
}
