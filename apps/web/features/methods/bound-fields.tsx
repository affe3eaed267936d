'use client'

import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import { Button } from '#components/button.tsx'
import { FieldSet } from '#components/field-set.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { readableUnit, unitInWords } from '#lib/typed-digits.ts'
import { useWords } from '#lib/words.ts'
import { boundPath, certainties } from './edition-form.ts'
import type { Bound, Parameter } from './editions.ts'
import { SourceText } from './step-part.tsx'
import styles from './methods.module.css'

/** The new value of one bound, with the built-in one, its source and its mark beside the field. */
export function BoundFields({
  bound,
  builtIn,
  index,
  errors,
  onTakeOff,
}: {
  bound: Bound
  builtIn: Parameter | undefined
  index: number
  errors: Readonly<Record<string, string>>
  onTakeOff: () => void
}) {
  const words = useWords()
  const { label, unit } = bound
  const named = writtenUnit(unit) || undefined
  return (
    <FieldSet legend={label}>
      <div className={styles.beside}>
        <aside className="stack" aria-label={words('methods.besideOf', { label })}>
          {builtIn !== undefined && <Held title={words('methods.builtIn')} parameter={builtIn} />}
          {bound.builtIn !== undefined && <Held title={words('methods.nowHeld')} parameter={bound} />}
          <div>
            <Button size="small" onClick={onTakeOff} aria-label={words('methods.leaveOf', { label })}>
              {words('methods.leave')}
            </Button>
          </div>
        </aside>
        <div className="stack">
          <MeasureField
            name={boundPath(index, 'value')}
            label={
              named === undefined ? words('methods.newCount') : words('methods.newValue', { unit: unitInWords(named) })
            }
            quantity={words('methods.theValue')}
            unit={named === undefined ? undefined : readableUnit(named)}
            mayBeNegative={unit === '°C'}
            error={errors[boundPath(index, 'value')] ?? errors[boundPath(index, 'parameter')]}
          />
          <TextField
            name={boundPath(index, 'source')}
            label={words('methods.newSource')}
            hint={words('methods.newSourceHint')}
            autoComplete="off"
            error={errors[boundPath(index, 'source')]}
          />
          <Select
            name={boundPath(index, 'certainty')}
            label={words('methods.newCertainty')}
            defaultValue="common practice"
            options={certainties.map((value) => ({
              value,
              label: words(`methods.certainty.${value.replaceAll(' ', '-')}`),
            }))}
            error={errors[boundPath(index, 'certainty')]}
          />
        </div>
      </div>
    </FieldSet>
  )
}

function Held({ title, parameter }: { title: string; parameter: Parameter }) {
  const format = useLaboratoryFormat()
  return (
    <div>
      <span className="quiet small">{title}</span>
      <p className={`${styles.held} reading`}>{format.quantity(parameter.value, parameter.unit)}</p>
      <SourceText parameter={parameter} />
    </div>
  )
}
