'use client'

import type { Limit } from '@curebook/contract/specifications'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Checkbox } from '#components/choices.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { readableUnit, unitInWords } from '#lib/typed-digits.ts'
import { useWords } from '#lib/words.ts'
import { changePath, unitsOf } from './adoption-form.ts'
import { useLimitWords } from './limit-words.ts'
import { SourceText } from './source-text.tsx'
import styles from './specifications.module.css'

/** One built-in limit with its source and mark, and beside it what the contract asks for instead. `index` is −1 while unchanged. */
export function LimitChange({
  limit,
  index,
  onToggle,
  errors,
}: {
  limit: Limit
  index: number
  onToggle: () => void
  errors: Readonly<Record<string, string>>
}) {
  const words = useWords()
  const value = useLimitWords()(limit)
  return (
    <section
      className={`${styles.change} panel`}
      data-open={index >= 0}
      aria-label={limit.label}
      data-field={index < 0 ? undefined : changePath(index)}
    >
      <div className="stack stack-tight">
        <h3>{limit.label}</h3>
        <p>
          <span className="quiet">{words('specifications.builtIn')}</span> <strong>{value}</strong>
          {limit.condition !== null && <>, {limit.condition}</>}
        </p>
        <p className="quiet small">
          <SourceText source={limit.source} certainty={limit.certainty} />
        </p>
      </div>
      <div className={styles.act}>
        {limit.sense !== 'declared' && (
          <Button
            size="small"
            aria-label={words(index < 0 ? 'specifications.changeOf' : 'specifications.keepOf', { name: limit.label })}
            aria-expanded={index >= 0}
            onClick={onToggle}
          >
            {words(index < 0 ? 'specifications.changeIt' : 'specifications.keepIt')}
          </Button>
        )}
      </div>
      {index >= 0 && <Fields limit={limit} index={index} errors={errors} />}
    </section>
  )
}

function Fields({ limit, index, errors }: { limit: Limit; index: number; errors: Readonly<Record<string, string>> }) {
  const words = useWords()
  const [unit, setUnit] = useState(limit.unit)
  const [none, setNone] = useState(false)
  const units = unitsOf(limit.unit)
  const problem = errors[changePath(index)] ?? errors[[changePath(index), 'limitKey'].join('.')]
  return (
    <div className={`${styles.fields} stack`}>
      {problem !== undefined && <p role="alert">{problem}</p>}
      {!none && (
        <MeasureField
          name={changePath(index, 'value')}
          label={words(`specifications.newLimit.${limit.sense === 'max' ? 'max' : 'min'}`, {
            name: limit.label,
            unit: unitInWords(unit),
          })}
          quantity={words('specifications.limit')}
          unit={readableUnit(unit)}
          error={errors[changePath(index, 'value')]}
        />
      )}
      {!none && limit.sense === 'between' && (
        <MeasureField
          name={changePath(index, 'upper')}
          label={words('specifications.newLimit.max', { name: limit.label, unit: unitInWords(unit) })}
          quantity={words('specifications.limit')}
          unit={readableUnit(unit)}
          error={errors[changePath(index, 'upper')]}
        />
      )}
      {!none && units.length > 1 && (
        <Select
          name={changePath(index, 'unit')}
          label={words('specifications.unitOf', { name: limit.label })}
          hint={words('specifications.unitHint')}
          value={unit}
          onChange={(event) => setUnit(event.target.value)}
          options={units.map((value) => ({ value, label: value }))}
          error={errors[changePath(index, 'unit')]}
        />
      )}
      <Checkbox
        name={changePath(index, 'none')}
        label={words('specifications.noneOf', { name: limit.label })}
        checked={none}
        onChange={(event) => setNone(event.target.checked)}
      />
      <TextField
        name={changePath(index, 'reason')}
        label={words('specifications.reasonOf', { name: limit.label })}
        hint={words('specifications.reasonHint')}
        autoComplete="off"
        error={errors[changePath(index, 'reason')]}
      />
    </div>
  )
}
