'use client'

import { usualEmulsionTemperature } from '@curebook/trade/design/usual-inputs'
import { PlaceField } from '#features/custody/act-fields.tsx'
import { ConditionField, SealField } from '#features/custody/condition-field.tsx'
import { DayField } from '#components/day-field.tsx'
import { FieldSet } from '#components/field-set.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { Select } from '#components/select.tsx'
import { TextArea, TextField } from '#components/text-field.tsx'
import { useWords } from '#lib/words.ts'
import { receiptField } from './receipt-form.ts'
import type { ReceiptTexts } from './receipt-texts.ts'

type Errors = Readonly<Record<string, string>>

/** What is looked at on arrival, and what the client told of the sampling; all of it may be left out. */
export function ReceiptFields({
  emulsion,
  errors,
  initial = {},
}: {
  emulsion: boolean
  errors: Errors
  /** What stands, where a receipt is put right. */
  initial?: ReceiptTexts
}) {
  const words = useWords()
  const text = (name: 'sampledBy' | 'sampledWhere' | 'sampledHow') => (
    <TextField
      name={receiptField(name)}
      defaultValue={initial[name]}
      label={words(`materials.${name}`)}
      autoComplete="off"
      error={errors[receiptField(name)]}
    />
  )
  return (
    <>
      <FieldSet legend={words('materials.onArrival')}>
        <TextField
          name="receipt.containerCount"
          defaultValue={initial.containerCount}
          label={words('materials.containerCount')}
          inputMode="numeric"
          autoComplete="off"
          error={errors['receipt.containerCount']}
        />
        <TextField
          name="receipt.containerKind"
          defaultValue={initial.containerKind}
          label={words('materials.containerKind')}
          hint={words('materials.containerKindHint')}
          autoComplete="off"
          error={errors['receipt.containerKind']}
        />
        <TextArea
          name="receipt.containers"
          defaultValue={initial.containers}
          label={words('materials.containers')}
          hint={words('materials.containersHint')}
          rows={3}
          error={errors['receipt.containers']}
        />
        <ConditionField name="receipt.condition" defaultValue={initial.condition} error={errors['receipt.condition']} />
        <SealField name="receipt.sealIntact" defaultValue={initial.sealIntact} error={errors['receipt.sealIntact']} />
        <MeasureField
          name="receipt.temperature"
          defaultValue={initial.temperature}
          label={words('materials.temperature')}
          quantity={words('materials.temperatureShort')}
          unit="°C"
          mayBeNegative
          optional
          usual={emulsion ? usualEmulsionTemperature : undefined}
          error={errors['receipt.temperature']}
        />
        {emulsion && (
          <DayField
            name="receipt.madeOn"
            defaultValue={initial.madeOn}
            label={words('materials.madeOn')}
            hint={words('materials.madeOnHint')}
            error={errors['receipt.madeOn']}
          />
        )}
        <PlaceField name="receipt.placeId" defaultValue={initial.placeId} optional error={errors['receipt.placeId']} />
      </FieldSet>
      <FieldSet legend={words('materials.asTold')}>
        {text('sampledBy')}
        {text('sampledWhere')}
        {text('sampledHow')}
        <Select
          name="receipt.safetySheet"
          defaultValue={initial.safetySheet}
          label={words('materials.safetySheet')}
          prompt={words('materials.sheetNotAsked')}
          options={(['on-file', 'missing', 'not-needed'] as const).map((value) => ({
            value,
            label: words(`custody.sheet.${value}`),
          }))}
          error={errors['receipt.safetySheet']}
        />
        <TextField
          name="receipt.safetySheetName"
          defaultValue={initial.safetySheetName}
          label={words('materials.safetySheetName')}
          autoComplete="off"
          error={errors['receipt.safetySheetName']}
        />
      </FieldSet>
    </>
  )
}
