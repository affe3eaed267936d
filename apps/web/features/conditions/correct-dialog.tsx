'use client'

import type { ConditionValue } from '@curebook/contract/conditions'
import { useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { TimeText } from '#components/time-text.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { newId } from '#lib/new-id.ts'
import { createSending } from '#lib/sending.ts'
import { useWords } from '#lib/words.ts'
import { useCorrectCondition } from './conditions.queries.ts'

/** A mistyped value is put right: its time stays, the first stays on record, and what rests on it is judged anew. */
export function CorrectDialog({
  instrumentId,
  code,
  value,
  onClose,
}: {
  instrumentId: string
  code: string
  value: ConditionValue
  onClose: () => void
}) {
  const words = useWords()
  const correct = useCorrectCondition(instrumentId, value.id)
  const [sending] = useState(() => createSending<{ readonly value: string; readonly reason: string }>(newId))
  const [missing, setMissing] = useState<Record<string, string>>({})
  const errors = { ...fieldErrors(correct.error), ...missing }
  function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    if (correct.isPending) return
    const form = new FormData(event.currentTarget)
    const typed = String(form.get('value') ?? '').trim()
    const reason = String(form.get('reason') ?? '').trim()
    const without = {
      ...(typed === '' ? { value: words('conditions.need') } : {}),
      ...(reason === '' ? { reason: words('conditions.needReason') } : {}),
    }
    setMissing(without)
    if (Object.keys(without).length > 0) return
    // After a lost answer it is the same correction; with other words it is another one, under an id of its own.
    const body = sending.take(JSON.stringify([typed, reason]), correct, () => ({ value: typed, reason }))
    if (body === undefined) return
    correct.mutate(
      {
        label: words('conditions.entry.correction', { code, from: value.typed, typed }),
        body: { id: sending.id('correction'), ...body },
      },
      { onSuccess: onClose },
    )
  }
  return (
    <Dialog title={words('conditions.correctOf', { code })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={submit} aria-busy={correct.isPending}>
        <FormErrors errors={errors} />
        <p>
          <span className="reading">{words('conditions.valueAs', { typed: value.typed, unit: value.unit })}</span>{' '}
          <TimeText at={value.at} look="short" />
          {value.by !== null && `, ${value.by.name}`}
        </p>
        <TextField
          name="value"
          label={words('conditions.typed')}
          inputMode="decimal"
          autoComplete="off"
          size="bench"
          error={errors.value}
        />
        <TextField
          name="reason"
          label={words('conditions.reason')}
          hint={words('conditions.reasonHint')}
          autoComplete="off"
          error={errors.reason}
        />
        <div className="row">
          <Button type="submit" tone="main" size="bench" busy={correct.isPending}>
            {words('conditions.keepCorrection')}
          </Button>
          <SaveState saving={savingOf(correct)} />
        </div>
      </form>
    </Dialog>
  )
}
