'use client'

import type { ExpectedDay } from '@curebook/contract/expected-days'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DayField } from '#components/day-field.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useSetExpectedDay } from './expected-days.queries.ts'

/** Sets the day that the client is told; a change says why. Set by somebody else meanwhile, it is refused and told. */
export function SetDayDialog({
  projectId,
  stands,
  onClose,
}: {
  projectId: string
  stands: ExpectedDay | undefined
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  // What was shown when the dialog opened: somebody else's day behind it is told and not replaced unseen.
  const [{ id, before }] = useState(() => ({ id: newId(), before: stands }))
  const set = useSetExpectedDay(lab.id, projectId)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/expected-days').then(({ SetExpectedDaySchema }) => SetExpectedDaySchema),
    read: (form) => {
      const reason = String(form.get('reason') ?? '').trim()
      return {
        id,
        day: String(form.get('day')),
        after: before?.id ?? null,
        ...(reason === '' ? {} : { reason }),
      }
    },
    save: set,
    onSaved: () => {
      confirm(words('expected.saved'))
      onClose()
    },
  })
  return (
    <Dialog title={words(before === undefined ? 'expected.set' : 'expected.change')} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={set.isPending}>
        <FormErrors errors={errors} />
        <DayField
          name="day"
          label={words('expected.dayLabel')}
          hint={words('expected.dayHint')}
          defaultValue={before?.day}
          error={errors.day}
        />
        {before !== undefined && (
          <TextArea
            name="reason"
            label={words('expected.reason')}
            hint={words('expected.reasonHint')}
            rows={2}
            error={errors.reason}
          />
        )}
        <div className="row">
          <Button type="submit" tone="main" busy={set.isPending}>
            {words('expected.save')}
          </Button>
          <SaveState saving={savingOf(set)} />
        </div>
      </form>
    </Dialog>
  )
}
