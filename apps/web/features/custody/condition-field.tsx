'use client'

import type { Condition } from '@curebook/contract/materials'
import { RadioGroup } from '#components/choices.tsx'
import { Select } from '#components/select.tsx'
import { useWords } from '#lib/words.ts'

export const conditions = [
  'good',
  'container-damaged',
  'leaking',
  'wet',
  'contaminated',
  'skin',
  'near-freezing',
  'other',
] as const satisfies readonly Condition[]

/** How it was found, from a short list; words stand in the note. */
export function ConditionField({
  name = 'condition',
  defaultValue,
  error,
}: {
  name?: string
  defaultValue?: string
  error?: string
}) {
  const words = useWords()
  return (
    <Select
      name={name}
      label={words('custody.condition')}
      hint={words('custody.conditionHint')}
      prompt={words('custody.notLooked')}
      options={conditions.map((value) => ({ value, label: words(`custody.condition.${value}`) }))}
      defaultValue={defaultValue}
      error={error}
    />
  )
}

/** Of the container, which is not the surfacing: intact, broken, or none to look at. */
export function SealField({
  name = 'sealIntact',
  defaultValue = '',
  error,
}: {
  name?: string
  defaultValue?: string
  error?: string
}) {
  const words = useWords()
  return (
    <RadioGroup
      name={name}
      label={words('custody.seal')}
      defaultValue={defaultValue}
      error={error}
      choices={[
        { value: '', label: words('custody.seal.none') },
        { value: 'yes', label: words('custody.seal.yes') },
        { value: 'no', label: words('custody.seal.no') },
      ]}
    />
  )
}
