'use client'

import type { Instrument } from '@curebook/contract/instruments'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { RadioGroup } from '#components/choices.tsx'
import { DayField } from '#components/day-field.tsx'
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
import { useAddCalibration } from './instruments.queries.ts'

/** Enters a calibration as its certificate states it. */
export function CalibrationDialog({ instrument, onClose }: { instrument: Instrument; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const add = useAddCalibration(lab.id, instrument.id)
  const [id] = useState(newId)
  const { code } = instrument
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/instruments').then(({ AddCalibrationSchema }) => AddCalibrationSchema),
    read: (form) => ({
      id,
      doneOn: String(form.get('doneOn')),
      validUntil: String(form.get('validUntil')),
      certificate: String(form.get('certificate')),
      passed: form.has('passed') ? form.get('passed') === 'true' : undefined,
    }),
    save: add,
    onSaved: () => {
      confirm(words('instruments.calibrationStored', { code }))
      onClose()
    },
  })
  const errors = inFieldSentences(told, {
    doneOn: words('instruments.needDone'),
    validUntil: words('instruments.needUntil'),
    passed: words('instruments.needOutcome'),
  })
  return (
    <Dialog title={words('instruments.calibrationOf', { code })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={add.isPending}>
        <FormErrors errors={errors} />
        <DayField name="doneOn" label={words('instruments.doneOn')} error={errors.doneOn} />
        <DayField name="validUntil" label={words('instruments.validUntil')} error={errors.validUntil} />
        <TextField
          name="certificate"
          label={words('instruments.certificate')}
          autoComplete="off"
          error={errors.certificate}
        />
        <RadioGroup
          name="passed"
          label={words('instruments.outcome')}
          error={errors.passed}
          choices={['true', 'false'].map((value) => ({ value, label: words(`instruments.passed.${value}`) }))}
        />
        <div className="row">
          <Button type="submit" tone="main" busy={add.isPending}>
            {words('instruments.addCalibration')}
          </Button>
          <SaveState saving={savingOf(add)} />
        </div>
      </form>
    </Dialog>
  )
}
