'use client'

import type { Instrument, InstrumentFactor } from '@curebook/contract/instruments'
import { Button } from '#components/button.tsx'
import { DayField } from '#components/day-field.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { typedDigits, unitInWords } from '#lib/typed-digits.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useStanding } from '#lib/use-standing.ts'
import { useWords } from '#lib/words.ts'
import { useAddFactor } from './instruments.queries.ts'

/** Enters a machine's factor in one unit as it is published; replacing one asks for the reason. */
export function FactorDialog({
  instrument,
  factorKey,
  unit,
  replaces: opened,
  onClose,
}: {
  instrument: Instrument
  factorKey: 'area' | 'frame'
  unit: 'g/m²' | 'g/ft²'
  replaces: InstrumentFactor | undefined
  onClose: () => void
}) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const add = useAddFactor(lab.id, instrument.id)
  const { id, standing: replaces } = useStanding(opened ?? null, add.error)
  const { code } = instrument
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/instruments').then(({ AddFactorSchema }) => AddFactorSchema),
    read: (form) => ({
      id,
      key: factorKey,
      typed: String(form.get('typed')),
      unit,
      measuredAreaCm2: form.get('measuredAreaCm2') === '' ? null : typedDigits(form.get('measuredAreaCm2'), 'cm²'),
      edition: String(form.get('edition')),
      effectiveFrom: String(form.get('effectiveFrom')),
      ...(replaces === null ? {} : { supersedes: { id: replaces.id, reason: String(form.get('supersedes.reason')) } }),
    }),
    save: add,
    onSaved: () => {
      confirm(words('instruments.factorStored', { code, unit }))
      onClose()
    },
  })
  const errors = inFieldSentences(told, { effectiveFrom: words('instruments.needDay') })
  return (
    <Dialog title={words('instruments.factorOf', { code, unit })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={add.isPending}>
        <FormErrors errors={errors} />
        {replaces !== null && (
          <p>
            {words('instruments.replaces', {
              value: format.quantity(replaces.value, replaces.unit),
              day: format.day(replaces.effectiveFrom),
            })}
          </p>
        )}
        <MeasureField
          name="typed"
          label={words('instruments.factorField', { unit: unitInWords(unit) })}
          hint={words('instruments.factorHint')}
          quantity={words('instruments.factorShort')}
          unit={unit}
          error={errors.typed}
        />
        <MeasureField
          name="measuredAreaCm2"
          label={words(`instruments.areaField.${factorKey}`)}
          hint={words('instruments.areaHint')}
          quantity={words('instruments.areaShort')}
          unit="cm²"
          optional
          error={errors.measuredAreaCm2}
        />
        <TextField
          name="edition"
          label={words('instruments.edition')}
          hint={words('instruments.editionHint')}
          autoComplete="off"
          error={errors.edition}
        />
        <DayField name="effectiveFrom" label={words('instruments.since')} error={errors.effectiveFrom} />
        {replaces !== null && (
          <TextField
            name="supersedes.reason"
            label={words('instruments.reasonField')}
            autoComplete="off"
            error={errors['supersedes.reason'] ?? errors.supersedes}
          />
        )}
        <p className="quiet small">{words('instruments.keepNumbers')}</p>
        <div className="row">
          <Button type="submit" tone="main" busy={add.isPending}>
            {words(replaces === null ? 'instruments.enterFactor' : 'instruments.replaceFactor', { unit })}
          </Button>
          <SaveState saving={savingOf(add)} />
        </div>
      </form>
    </Dialog>
  )
}
