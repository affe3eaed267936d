'use client'

import type { Authorisation } from '@curebook/contract/authorisations'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { readSpan, SpanFields } from './authorisation-span.tsx'
import { useCorrectAuthorisation } from './people.queries.ts'

/** Ends or corrects an authorisation; the one before stays on record with its reason. */
export function CorrectionDialog({ authorisation, onClose }: { authorisation: Authorisation; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const correct = useCorrectAuthorisation(lab.id, authorisation.id)
  const [id] = useState(newId)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () =>
      import('@curebook/contract/authorisations').then(({ CorrectAuthorisationSchema }) => CorrectAuthorisationSchema),
    read: (form) => ({ id, ...readSpan(form), reason: String(form.get('reason')) }),
    save: correct,
    onSaved: () => {
      confirm(words('people.auth.changed'))
      onClose()
    },
  })
  const errors = inFieldSentences(told, {
    fromDay: words('people.auth.needFrom'),
    untilDay: words('people.auth.needUntil'),
  })
  return (
    <Dialog
      title={words('people.auth.changeOf', {
        name: authorisation.person.name,
        activity: authorisation.activityLabel,
      })}
      onClose={onClose}
    >
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={correct.isPending}>
        <FormErrors errors={errors} />
        <SpanFields initial={authorisation} errors={errors} />
        <TextField
          name="reason"
          label={words('people.auth.reason')}
          hint={words('people.auth.reasonHint')}
          autoComplete="off"
          error={errors.reason}
        />
        <div className="row">
          <Button type="submit" tone="main" busy={correct.isPending}>
            {words('people.saveChanges')}
          </Button>
          <SaveState saving={savingOf(correct)} />
        </div>
      </form>
    </Dialog>
  )
}
