'use client'

import type { SignedInDevice } from '@curebook/contract/signed-in'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useCutOff } from './people.queries.ts'

/** Says what cutting off does, and takes the reason. `called`: the device in words. */
export function CutOffDialog({
  device: { id, person },
  called,
  onClose,
}: {
  device: SignedInDevice
  called: string
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const cutOff = useCutOff(lab.id, id)
  const { name } = person
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/signed-in').then(({ CutOffSchema }) => CutOffSchema),
    read: (form) => ({ reason: String(form.get('reason')) }),
    save: cutOff,
    onSaved: () => {
      confirm(words('people.in.cutOffDone', { name }))
      onClose()
    },
  })
  return (
    <Dialog title={words('people.in.cutOffTitle', { name })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={cutOff.isPending}>
        <FormErrors errors={errors} />
        <p>{words('people.in.cutOffAbout', { name, device: called })}</p>
        <p>{words('people.in.waiting')}</p>
        <TextField
          name="reason"
          label={words('people.in.reason')}
          hint={words('people.in.reasonHint')}
          autoComplete="off"
          error={errors.reason}
        />
        <div className="row">
          <Button type="submit" tone="danger" busy={cutOff.isPending}>
            {words('people.in.cutOffNow')}
          </Button>
          <SaveState saving={savingOf(cutOff)} />
        </div>
      </form>
    </Dialog>
  )
}
