'use client'

import type { Design } from '@curebook/contract/designs'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea } from '#components/text-field.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useNewRevision } from './review.queries.ts'

/** A further revision begins as a copy; the approved one stays as it was signed. */
export function NewRevisionDialog({ design, onClose }: { design: Design; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const [id] = useState(newId)
  const start = useNewRevision(lab.id, design)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/review').then(({ NewRevisionSchema }) => NewRevisionSchema),
    read: (form) => ({ id, reason: String(form.get('reason')) }),
    save: start,
    onSaved: () => {
      onClose()
      router.push(`/l/${lab.short}/designs/${design.id}`)
    },
  })
  return (
    <Dialog title={words('review.newRevision')} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={start.isPending}>
        <FormErrors errors={errors} />
        <p>{words('review.newRevisionAbout', { revision: design.revision })}</p>
        <TextArea name="reason" label={words('review.newRevisionReason')} error={errors.reason} />
        <div className="row">
          <Button type="submit" tone="main" busy={start.isPending}>
            {words('review.startRevision', { number: design.revision + 1 })}
          </Button>
          <SaveState saving={savingOf(start)} />
        </div>
      </form>
    </Dialog>
  )
}
