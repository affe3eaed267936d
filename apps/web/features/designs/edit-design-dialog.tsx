'use client'

import type { Design } from '@curebook/contract/designs'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { DesignFields } from './design-fields.tsx'
import { readDesignForm } from './design-form-data.ts'
import { useUpdateDesign } from './designs.queries.ts'

/** Changes the settings of a design; refused when somebody else changed them meanwhile. */
export function EditDesignDialog({ design: opened, onClose }: { design: Design; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  // What the change starts from: another's change meanwhile refuses this one and must not slip under it.
  const [design] = useState(opened)
  const update = useUpdateDesign(lab.id, design)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/designs').then(({ UpdateDesignSchema }) => UpdateDesignSchema),
    read: readDesignForm,
    save: update,
    onSaved: () => {
      confirm(words('designs.edited', { name: design.name }))
      onClose()
    },
  })
  return (
    <Dialog title={words('designs.editOf', { name: design.name })} onClose={onClose} wide>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={update.isPending}>
        <FormErrors errors={errors} />
        <DesignFields
          errors={errors}
          projectId={design.projectId}
          initial={design}
          samplesFixed={design.mixes.length > 0}
        />
        <div className="row">
          <Button type="submit" tone="main" busy={update.isPending}>
            {words('designs.saveChanges')}
          </Button>
          <SaveState saving={savingOf(update)} />
        </div>
      </form>
    </Dialog>
  )
}
