'use client'

import type { InstrumentImport } from '@curebook/contract/instrument-imports'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useTakeBackImport } from './imports.queries.ts'

/** Takes an import back as a whole, with a reason; the instruments stay on record, out of service. */
export function TakeBackDialog({ one, onClose }: { one: InstrumentImport; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const takeBack = useTakeBackImport(lab.id, one.id)
  const [id] = useState(newId)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () =>
      import('@curebook/contract/instrument-imports').then(({ TakeBackImportSchema }) => TakeBackImportSchema),
    read: (form) => ({ id, reason: String(form.get('reason') ?? '') }),
    save: takeBack,
    onSaved: () => {
      confirm(words('instrumentImport.takenBackNow', { file: one.fileName }))
      onClose()
    },
  })
  return (
    <Dialog title={words('instrumentImport.takeBackTitle', { file: one.fileName })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={takeBack.isPending}>
        <FormErrors errors={errors} />
        <p>{words('instrumentImport.takeBackAbout', { codes: one.instruments.map(({ code }) => code).join(', ') })}</p>
        <TextField
          name="reason"
          label={words('instrumentImport.reason')}
          hint={words('instrumentImport.reasonHint')}
          autoComplete="off"
          error={errors.reason}
        />
        <div className="row">
          <Button type="submit" tone="danger" busy={takeBack.isPending}>
            {words('instrumentImport.takeBack', { count: one.instruments.length })}
          </Button>
          <SaveState saving={savingOf(takeBack)} />
        </div>
      </form>
    </Dialog>
  )
}
