'use client'

import type { Instrument } from '@curebook/contract/instruments'
import { FieldSet } from '#components/field-set.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { TextField } from '#components/text-field.tsx'
import { typedDigits } from '#lib/typed-digits.ts'
import { useWords } from '#lib/words.ts'

type Errors = Readonly<Record<string, string | undefined>>
type Stored = Pick<Instrument, 'name' | 'serial' | 'place' | 'capacity' | 'resolution'>

/** What an instrument is, by size and use, and what a balance can show. */
export function InstrumentFields({ kind, stored, errors }: { kind: string; stored?: Stored; errors: Errors }) {
  const words = useWords()
  return (
    <>
      <TextField
        name="name"
        label={words('instruments.name')}
        hint={words('instruments.nameHint')}
        defaultValue={stored?.name}
        autoComplete="off"
        error={errors.name}
      />
      <TextField
        name="serial"
        label={words('instruments.serial')}
        defaultValue={stored?.serial}
        autoComplete="off"
        error={errors.serial}
      />
      <TextField
        name="place"
        label={words('instruments.place')}
        defaultValue={stored?.place}
        autoComplete="off"
        error={errors.place}
      />
      {kind === 'balance' && (
        <FieldSet legend={words('instruments.balanceFields')}>
          <MeasureField
            name="capacity"
            label={words('instruments.capacityField')}
            hint={words('instruments.capacityHint')}
            quantity={words('instruments.capacity')}
            unit="g"
            optional
            defaultValue={stored?.capacity ?? ''}
            error={errors.capacity}
          />
          <MeasureField
            name="resolution"
            label={words('instruments.resolutionField')}
            hint={words('instruments.resolutionHint')}
            quantity={words('instruments.resolution')}
            unit="g"
            optional
            defaultValue={stored?.resolution ?? ''}
            error={errors.resolution}
          />
        </FieldSet>
      )}
    </>
  )
}

/** What stands in those fields; nothing of what only a balance has for other instruments. */
export function readInstrumentFields(form: FormData) {
  const text = (name: string) => String(form.get(name) ?? '').trim()
  const grams = (name: string) => (text(name) === '' ? null : typedDigits(text(name), 'g'))
  const [capacity, resolution] = [grams('capacity'), grams('resolution')]
  return {
    name: text('name'),
    serial: text('serial'),
    place: text('place'),
    capacity,
    capacityUnit: capacity === null && resolution === null ? null : 'g',
    resolution,
  }
}
