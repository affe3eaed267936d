'use client'

import type { MadeBy } from '@curebook/contract/made-by'
import { RadioGroup } from '#components/choices.tsx'
import { DayField } from '#components/day-field.tsx'
import { TextArea, TextField } from '#components/text-field.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import styles from './range.module.css'

const makers = ['entered', 'outside', 'customer'] as const satisfies readonly MadeBy[]
type Errors = Readonly<Record<string, string>>

/** Who made what is entered: somebody here, another laboratory, or whoever ordered it. */
export function MakerChoice({
  madeBy,
  onMadeBy,
  error,
}: {
  madeBy: MadeBy
  onMadeBy: (madeBy: MadeBy) => void
  error: string | undefined
}) {
  const words = useWords()
  return (
    <RadioGroup
      name="madeBy"
      label={words('range.madeByField')}
      value={madeBy}
      onValue={(value) => onMadeBy(value as MadeBy)}
      choices={makers.map((value) => ({ value, label: words(`range.madeBy.${value}`) }))}
      error={error}
    />
  )
}

type Maker = Partial<Record<'observedBy' | 'instrument' | 'laboratoryName' | 'source', string | null>>

/** By hand here: who, and what it was read from where that is asked for. By others: whose paper it stands in. */
export function MakerFields({
  madeBy,
  standing,
  errors,
  withInstrument = false,
}: {
  madeBy: MadeBy
  standing: Maker | null | undefined
  errors: Errors
  withInstrument?: boolean
}) {
  const words = useWords()
  const lab = useLaboratory()
  const field = (name: keyof Maker, label: string, initial = '') => (
    <TextField
      name={name}
      label={label}
      autoComplete="off"
      defaultValue={standing?.[name] ?? initial}
      error={errors[name]}
    />
  )
  const others = madeBy === 'customer' ? 'customer' : 'outside'
  // Both stay on the page: what was typed is there again when one changes one's mind.
  return (
    <>
      <div className={withInstrument ? styles.pair : undefined} hidden={madeBy !== 'entered'}>
        {field('observedBy', words('range.observedByField'), lab.me.name)}
        {withInstrument && field('instrument', words('range.instrumentField'))}
      </div>
      <div className={styles.pair} hidden={madeBy === 'entered'}>
        {field('laboratoryName', words(`range.laboratoryField.${others}`))}
        {field('source', words(`range.paperField.${others}`))}
      </div>
    </>
  )
}

/** When it was found, and what is to be said of it. */
export function FoundFields({
  standing,
  today,
  errors,
}: {
  standing: { readonly observedOn: string; readonly remark: string } | null
  today: string
  errors: Errors
}) {
  const words = useWords()
  return (
    <>
      <DayField
        name="observedOn"
        label={words('range.observedOnField')}
        defaultValue={standing?.observedOn ?? today}
        error={errors.observedOn}
      />
      <TextArea
        name="remark"
        label={words('range.remarkField')}
        defaultValue={standing?.remark}
        error={errors.remark}
      />
    </>
  )
}

/** Why what stands is replaced; it stays in the record. */
export function ReplaceReason({ errors }: { errors: Errors }) {
  const words = useWords()
  return (
    <TextArea
      name="supersedes.reason"
      label={words('range.replaceWhy')}
      hint={words('range.replaceWhyHint')}
      error={errors['supersedes.reason']}
    />
  )
}
