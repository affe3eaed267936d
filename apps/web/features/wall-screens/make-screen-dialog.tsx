'use client'

import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { MadeCode } from './made-code.tsx'
import { useMakeWallScreen } from './wall-screens.queries.ts'

/** Names a screen by where it hangs; afterwards shows its code. */
export function MakeScreenDialog({ onClose }: { onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const make = useMakeWallScreen(lab.id)
  const [id] = useState(newId)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/wall').then(({ MakeWallScreenSchema }) => MakeWallScreenSchema),
    read: (form) => ({ id, name: String(form.get('name')) }),
    save: make,
  })
  return (
    <Dialog title={words('wallScreens.makeTitle')} onClose={onClose}>
      {make.data === undefined ? (
        <form className="stack" onSubmit={onSubmit} noValidate aria-busy={make.isPending}>
          <FormErrors errors={errors} />
          <TextField
            name="name"
            label={words('wallScreens.name')}
            hint={words('wallScreens.nameHint')}
            autoComplete="off"
            error={errors.name}
          />
          <div className="row">
            <Button type="submit" tone="main" busy={make.isPending}>
              {words('wallScreens.makeIt')}
            </Button>
            <SaveState saving={savingOf(make)} />
          </div>
        </form>
      ) : (
        <MadeCode made={make.data} onClose={onClose} />
      )}
    </Dialog>
  )
}
