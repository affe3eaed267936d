'use client'

import type { Design } from '@curebook/contract/designs'
import type { Review } from '@curebook/contract/review'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { CheckboxGroup } from '#components/choices.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea, TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { codesOf } from './point-order.ts'
import { useSendBack } from './review.queries.ts'

/** Gives a revision back with a reason and what is wrong; whoever opens the design next reads both in full. */
export function SendBackDialog({ design, review, onClose }: { design: Design; review: Review; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const [id] = useState(newId)
  const sendBack = useSendBack(lab.id, design)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/review').then(({ SendBackSchema }) => SendBackSchema),
    read: (form) => ({
      id,
      reason: String(form.get('reason')),
      points: [...form.getAll('points').map(String), ...codesOf(String(form.get('codes') ?? ''))],
    }),
    save: sendBack,
    onSaved: () => {
      confirm(words('review.sentBackDone', { revision: review.revision }))
      onClose()
    },
  })
  return (
    <Dialog title={words('review.sendBack', { revision: review.revision })} onClose={onClose} wide>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={sendBack.isPending}>
        <FormErrors errors={errors} />
        <TextArea
          name="reason"
          label={words('review.sendBackReason')}
          hint={words('review.sendBackReasonHint')}
          error={errors.reason}
        />
        <CheckboxGroup
          name="points"
          label={words('review.sendBackPoints')}
          hint={words('review.sendBackPointsHint')}
          error={errors.points}
          choices={[
            { value: 'recommendation', label: words('review.theRecommendation') },
            ...review.points.map(({ key, sentence }) => ({ value: key, label: sentence })),
          ]}
        />
        <TextField
          name="codes"
          label={words('review.sendBackCodes')}
          hint={words('review.sendBackCodesHint')}
          autoComplete="off"
          autoCapitalize="characters"
          spellCheck={false}
        />
        <div className="row">
          <Button type="submit" tone="danger" busy={sendBack.isPending}>
            {words('review.sendBack', { revision: review.revision })}
          </Button>
          <SaveState saving={savingOf(sendBack)} />
        </div>
      </form>
    </Dialog>
  )
}
