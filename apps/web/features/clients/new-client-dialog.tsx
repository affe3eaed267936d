'use client'

import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea, TextField } from '#components/text-field.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useCreateClient } from './clients.queries.ts'

/** Enters a client. Rendered beside a form, never inside one: its submit would rise to it. */
export function NewClientDialog({
  onMade,
  onClose,
}: {
  onMade?: (client: { id: string; name: string }) => void
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const create = useCreateClient(lab.id)
  const [id] = useState(newId)
  const [name, setName] = useState('')
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/projects').then(({ CreateClientSchema }) => CreateClientSchema),
    read: (form) => ({
      id,
      name: String(form.get('name')),
      contact: String(form.get('contact')),
      address: String(form.get('address')),
    }),
    save: create,
    onSaved: () => {
      onMade?.({ id, name })
      onClose()
    },
  })
  return (
    <Dialog title={words('clients.newTitle')} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={create.isPending}>
        <FormErrors errors={errors} />
        <TextField
          name="name"
          label={words('clients.name')}
          hint={words('clients.nameHint')}
          value={name}
          onChange={(event) => setName(event.target.value)}
          autoComplete="off"
          error={errors.name}
        />
        <TextField name="contact" label={words('clients.contact')} autoComplete="off" error={errors.contact} />
        <TextArea name="address" label={words('clients.address')} autoComplete="off" rows={3} error={errors.address} />
        <div className="row">
          <Button type="submit" tone="main" busy={create.isPending}>
            {words('clients.make')}
          </Button>
          <SaveState saving={savingOf(create)} />
        </div>
      </form>
    </Dialog>
  )
}
