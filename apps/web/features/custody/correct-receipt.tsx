'use client'

import type { CustodyEvent, Item } from '@curebook/contract/custody'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { ReceiptFields } from '#features/materials/receipt-fields.tsx'
import { atContainers, readReceipt } from '#features/materials/receipt-form.ts'
import { receiptTexts } from '#features/materials/receipt-texts.ts'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useCorrectReceipt } from './custody.queries.ts'

/** Puts right what was told on arrival; what was told first stays on the page, struck through. */
export function CorrectReceipt({ item }: { item: Item }) {
  const words = useWords()
  const lab = useLaboratory()
  const [open, setOpen] = useState(false)
  const stands = item.life.find(({ kind, superseded }) => kind === 'received' && !superseded)
  if (item.kind !== 'sample' || stands === undefined || !lab.may('receipt:correct')) return null
  return (
    <div className="row">
      <Button onClick={() => setOpen(true)}>{words('custody.receipt.correct')}</Button>
      {open && <CorrectDialog item={item} stands={stands} onClose={() => setOpen(false)} />}
    </div>
  )
}

function CorrectDialog({ item, stands, onClose }: { item: Item; stands: CustodyEvent; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const correct = useCorrectReceipt(lab.id, item.id)
  const [id] = useState(newId)
  // The receipt as it stood when the dialog was opened: what was corrected meanwhile is told.
  const [supersedesId] = useState(stands.id)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/custody').then(({ CorrectReceiptSchema }) => CorrectReceiptSchema),
    read: (form) => ({
      id,
      supersedesId,
      reason: String(form.get('reason')),
      receipt: readReceipt(form) ?? {},
    }),
    save: correct,
    onSaved: () => {
      confirm(words('custody.receipt.corrected', { code: item.code }))
      onClose()
    },
  })
  const errors = atContainers(
    inFieldSentences(told, {
      reason: words('custody.receipt.needReason'),
      'receipt.containerCount': words('materials.needCount'),
    }),
  )
  return (
    <Dialog title={words('custody.receipt.ask', { code: item.code })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={correct.isPending}>
        <FormErrors errors={errors} />
        <TextField
          name="reason"
          label={words('custody.receipt.reason')}
          hint={words('custody.receipt.reasonHint')}
          autoComplete="off"
          error={errors.reason}
        />
        <ReceiptFields
          emulsion={item.materialKind === 'emulsion'}
          errors={errors}
          initial={receiptTexts(item.receipt, stands)}
        />
        <div className="row">
          <Button type="submit" tone="main" busy={correct.isPending}>
            {words('custody.receipt.store')}
          </Button>
          <SaveState saving={savingOf(correct)} />
        </div>
      </form>
    </Dialog>
  )
}
