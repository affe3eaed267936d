'use client'

import type { Instrument, UpdateInstrument } from '@curebook/contract/instruments'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { InstrumentFields, readInstrumentFields } from './instrument-fields.tsx'
import { useUpdateInstrument } from './instruments.queries.ts'

/** Changes what an instrument is; the record keeps what stood before, who changed it and why. */
export function ChangeInstrumentButton({ instrument }: { instrument: Instrument }) {
  const words = useWords()
  const [open, setOpen] = useState(false)
  return (
    <>
      <Button onClick={() => setOpen(true)}>{words('instruments.change')}</Button>
      {open && <ChangeDialog instrument={instrument} onClose={() => setOpen(false)} />}
    </>
  )
}

function ChangeDialog({ instrument: opened, onClose }: { instrument: Instrument; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  // What the change starts from: another's change meanwhile refuses this one and must not slip under it.
  const [instrument] = useState(opened)
  const update = useUpdateInstrument(lab.id, instrument)
  const { code, kind } = instrument
  const { errors, onSubmit } = useCheckedSubmit<UpdateInstrument>({
    schema: () => import('@curebook/contract/instruments').then(({ UpdateInstrumentSchema }) => UpdateInstrumentSchema),
    read: (form) => {
      const { name, serial, place, ...shown } = readInstrumentFields(form)
      const reason = String(form.get('reason') ?? '').trim()
      return { name, serial, place, ...(kind === 'balance' ? shown : {}), reason }
    },
    save: update,
    onSaved: () => {
      confirm(words('instruments.changeDone', { code }))
      onClose()
    },
  })
  return (
    <Dialog title={words('instruments.changeOf', { code })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={update.isPending}>
        <FormErrors errors={errors} />
        <p>{words('instruments.changeAbout', { code })}</p>
        <InstrumentFields kind={kind} stored={instrument} errors={errors} />
        <TextArea name="reason" label={words('instruments.changeReason', { code })} rows={2} error={errors.reason} />
        <div className="row">
          <Button type="submit" tone="main" busy={update.isPending}>
            {words('instruments.changeStore')}
          </Button>
          <SaveState saving={savingOf(update)} />
        </div>
      </form>
    </Dialog>
  )
}
