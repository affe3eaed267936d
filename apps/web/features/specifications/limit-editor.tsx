'use client'

import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { useWords } from '#lib/words.ts'
import { useLimitWords } from './limit-words.ts'
import { PropertyFields } from './property-fields.tsx'
import { limitPath, type LimitStart } from './written-form.ts'
import styles from './specifications.module.css'

export const certainties = ['published', 'common practice', 'from memory', 'by contract'] as const
export const roundings = ['none', 'half-even', 'half-up', 'up', 'truncate'] as const
const senses = ['max', 'min', 'between', 'declared'] as const
const rules = ['simple acceptance', 'guard band', 'non-binary'] as const
const groups = ['mix', 'aggregate', 'emulsion'] as const
type Errors = Readonly<Record<string, string>>

/** One limit of a specification that is written: folded to one line until it is opened, or holds something to put right. */
export function LimitEditor({
  start,
  index,
  isNew,
  errors,
  onRemove,
}: {
  start: LimitStart
  index: number
  isNew: boolean
  errors: Errors
  onRemove: () => void
}) {
  const words = useWords()
  const limitWords = useLimitWords()
  const [open, setOpen] = useState(isNew)
  const [label, setLabel] = useState(start.label)
  const [picked, setPicked] = useState(start)
  const prefix = limitPath(index, '')
  const isWrong = Object.keys(errors).some((path) => path.startsWith(prefix))
  const name = label === '' ? words('specifications.newLimitName') : label
  return (
    <details
      className={`${styles.limit} panel`}
      open={open || isWrong}
      onToggle={(event) => setOpen(event.currentTarget.open)}
      data-field={limitPath(index, 'key')}
      data-part={name}
    >
      <summary>
        <strong>{name}</strong>
        {!isNew && <span className="quiet">: {[limitWords(start), start.condition].filter(Boolean).join(', ')}</span>}
      </summary>
      <div className="stack stack-tight">
        {errors[limitPath(index, 'key')] !== undefined && <p role="alert">{errors[limitPath(index, 'key')]}</p>}
        {isNew && (
          <div className={styles.grid}>
            <PropertyFields
              {...{ index, errors }}
              start={picked}
              onPick={(known) => {
                setPicked(known)
                setLabel(known.label)
              }}
            />
          </div>
        )}
        {/* What goes with a property comes with it: its fields begin anew. */}
        <WhatFields key={`what ${keyOf(picked)}`} {...{ index, isNew, errors }} start={picked} onLabel={setLabel} />
        <NumberFields key={`number ${keyOf(picked)}`} {...{ index, errors }} start={picked} />
        <RuleFields {...{ start, index, errors }} />
        <SourceFields {...{ start, index, errors }} />
        <div>
          <Button size="small" onClick={onRemove} aria-label={words('specifications.removeOf', { name })}>
            {words('specifications.removeLimit')}
          </Button>
        </div>
      </div>
    </details>
  )
}

const keyOf = ({ property, soak }: LimitStart) => `${property} ${soak ?? ''}`

type Part = { readonly start: LimitStart; readonly index: number; readonly errors: Errors }

function WhatFields({
  start,
  index,
  isNew,
  errors,
  onLabel,
}: Part & { isNew: boolean; onLabel: (label: string) => void }) {
  const words = useWords()
  const at = (field: string) => ({ name: limitPath(index, field), error: errors[limitPath(index, field)] })
  return (
    <div className={styles.grid}>
      <input type="hidden" name={limitPath(index, 'key')} value={start.key} />
      <input type="hidden" name={limitPath(index, 'traffic')} value={start.traffic ?? ''} />
      <TextField
        {...at('label')}
        label={words('specifications.limitLabel')}
        defaultValue={start.label}
        onChange={(event) => onLabel(event.target.value)}
        autoComplete="off"
      />
      {!isNew && (
        <>
          <input type="hidden" name={limitPath(index, 'property')} value={start.property} />
          <input type="hidden" name={limitPath(index, 'soak')} value={start.soak ?? ''} />
        </>
      )}
      <Select
        {...at('group')}
        label={words('specifications.limitGroup')}
        defaultValue={start.group}
        options={groups.map((value) => ({ value, label: words(`specifications.group.${value}`) }))}
      />
      <TextField
        {...at('method')}
        label={words('specifications.limitMethod')}
        defaultValue={start.method ?? ''}
        autoComplete="off"
      />
    </div>
  )
}

function NumberFields({ start, index, errors }: Part) {
  const words = useWords()
  const [sense, setSense] = useState<string>(start.sense)
  const at = (field: string) => ({ name: limitPath(index, field), error: errors[limitPath(index, field)] })
  const digits = { inputMode: 'decimal', autoComplete: 'off' } as const
  return (
    <div className={styles.grid}>
      <Select
        {...at('sense')}
        label={words('specifications.limitSense')}
        value={sense}
        onChange={(event) => setSense(event.target.value)}
        options={senses.map((value) => ({ value, label: words(`specifications.senseName.${value}`) }))}
      />
      {/* Hidden and not taken away: what was typed is there again when the sense goes back. */}
      <div hidden={sense === 'declared'}>
        <TextField
          {...at('value')}
          {...digits}
          label={words(sense === 'between' ? 'specifications.limitLower' : 'specifications.limitValue')}
          hint={words('specifications.limitValueHint')}
          defaultValue={start.value ?? ''}
        />
      </div>
      <div hidden={sense !== 'between'}>
        <TextField
          {...at('upper')}
          {...digits}
          label={words('specifications.limitUpper')}
          defaultValue={start.upper ?? ''}
        />
      </div>
      <TextField {...at('unit')} label={words('specifications.unit')} defaultValue={start.unit} autoComplete="off" />
      <TextField
        {...at('condition')}
        label={words('specifications.limitCondition')}
        hint={words('specifications.limitConditionHint')}
        defaultValue={start.condition ?? ''}
        autoComplete="off"
      />
    </div>
  )
}

function RuleFields({ start, index, errors }: Part) {
  const words = useWords()
  const [rule, setRule] = useState<string>(start.decisionRule)
  // What was typed for another rule stays under its fields, unread, until the rule goes back.
  const simple = rule === 'simple acceptance'
  const at = (field: string) => ({ name: limitPath(index, field), error: errors[limitPath(index, field)] })
  const digits = { inputMode: 'decimal', autoComplete: 'off' } as const
  return (
    <div className={styles.grid}>
      <Select
        {...at('rounding')}
        label={words('specifications.rounding')}
        defaultValue={start.rounding}
        options={roundings.map((value) => ({ value, label: words(`specifications.rounding.${value}`) }))}
      />
      <Select
        {...at('decisionRule')}
        label={words('specifications.decisionRule')}
        value={rule}
        onChange={(event) => setRule(event.target.value)}
        options={rules.map((value) => ({
          value,
          label: words(`specifications.rule.${value.replaceAll(' ', '-')}`),
        }))}
      />
      <div hidden={simple}>
        <TextField
          {...at('uncertainty.expanded')}
          {...digits}
          label={words('specifications.expanded')}
          hint={words('specifications.expandedHint')}
          defaultValue={start.uncertainty?.expanded ?? ''}
        />
      </div>
      <div hidden={simple}>
        <TextField
          {...at('uncertainty.coverageFactor')}
          {...digits}
          label={words('specifications.coverageFactor')}
          defaultValue={start.uncertainty?.coverageFactor ?? '2'}
        />
      </div>
      <div hidden={simple}>
        <TextField
          {...at('uncertainty.source')}
          label={words('specifications.uncertaintySource')}
          defaultValue={start.uncertainty?.source ?? ''}
          autoComplete="off"
        />
      </div>
    </div>
  )
}

function SourceFields({ start, index, errors }: Part) {
  const words = useWords()
  const at = (field: string) => ({ name: limitPath(index, field), error: errors[limitPath(index, field)] })
  return (
    <div className={styles.grid}>
      <TextField
        {...at('source')}
        label={words('specifications.source')}
        defaultValue={start.source}
        autoComplete="off"
      />
      <TextField
        {...at('clause')}
        label={words('specifications.clause')}
        defaultValue={start.clause ?? ''}
        autoComplete="off"
      />
      <Select
        {...at('certainty')}
        label={words('specifications.mark')}
        defaultValue={start.certainty}
        options={certainties.map((value) => ({
          value,
          label: words(`specifications.certainty.${value.replaceAll(' ', '-')}`),
        }))}
      />
    </div>
  )
}
