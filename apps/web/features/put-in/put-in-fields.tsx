'use client'

import type { PutIn } from '@curebook/contract/put-in'
import { dayAfter, isClosedDay } from '@curebook/trade/procedure/closed-days'
import { useState } from 'react'
import { Checkbox } from '#components/choices.tsx'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { dayOf } from '#lib/laboratory-time.ts'
import { useWords } from '#lib/words.ts'
import { clockOf, marginChoices, runChoices, type PlannedPutIn, type PutInChoice } from './put-in-view.ts'

const daysAhead = 14

/** First put-in, run with change and margin; each stands in the address, so that the list can be shared and printed again. */
export function PutInFields({
  choice,
  plan,
  now,
  spareCount,
  machines,
  set,
}: {
  choice: PutInChoice
  plan: PlannedPutIn
  now: number
  spareCount: number
  machines: PutIn['machines']
  set: (name: keyof PutInChoice, value: string) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const format = useLaboratoryFormat()
  const today = dayOf(new Date(now).toISOString(), lab.zone)
  const days = Array.from({ length: daysAhead }, (_, index) => dayAfter(today, index))
  const minutes = (choices: readonly number[]) =>
    choices.map((count) => ({ value: String(count), label: words('putIn.minutes', { count }) }))
  return (
    <div className="stack stack-tight no-print">
      <div className="columns" style={{ '--column': '17rem' } as React.CSSProperties}>
        <Select
          name="day"
          label={words('putIn.day')}
          value={choice.day === '' ? today : choice.day}
          onChange={(event) => set('day', event.target.value === today ? '' : event.target.value)}
          options={days.map((day) => ({
            value: day,
            label: isClosedDay(day, lab.settings.closedDays)
              ? words('putIn.dayClosed', { day: format.day(day) })
              : format.day(day),
          }))}
        />
        <FirstAt at={choice.at} onAt={(typed) => set('at', typed)} />
        <Select
          name="run"
          label={words('putIn.run')}
          hint={words('putIn.runHint')}
          value={String(plan.run)}
          onChange={(event) => set('run', event.target.value)}
          options={minutes(runChoices)}
        />
        <Select
          name="margin"
          label={words('putIn.margin')}
          value={String(plan.margin)}
          onChange={(event) => set('margin', event.target.value)}
          options={minutes(marginChoices)}
        />
        {machines.length > 0 && (
          <Select
            name="machine"
            label={words('putIn.machine')}
            prompt={words('putIn.anyMachine')}
            value={plan.machineId ?? ''}
            onChange={(event) => set('machine', event.target.value)}
            options={machines.map(({ id, code, name }) => ({
              value: id,
              label: words('putIn.machineName', { code, name }),
            }))}
          />
        )}
      </div>
      {spareCount > 0 && (
        <Checkbox
          name="spares"
          label={words('putIn.spares', { count: spareCount })}
          checked={choice.spares === 'yes'}
          onChange={(event) => set('spares', event.target.checked ? 'yes' : '')}
        />
      )}
    </div>
  )
}

/** A time of day as people write it; what is none is told when one moves on, and the list stays as it was. */
function FirstAt({ at, onAt }: { at: string; onAt: (typed: string) => void }) {
  const words = useWords()
  const [typed, setTyped] = useState(at)
  const [left, setLeft] = useState(false)
  const wrong = typed.trim() !== '' && clockOf(typed) === undefined
  return (
    <TextField
      name="at"
      label={words('putIn.at')}
      hint={words('putIn.atHint')}
      inputMode="numeric"
      autoComplete="off"
      value={typed}
      error={left && wrong ? words('putIn.atWrong') : undefined}
      onBlur={() => setLeft(true)}
      onChange={(event) => {
        setTyped(event.target.value)
        const clock = clockOf(event.target.value)
        if (clock !== undefined || event.target.value.trim() === '') onAt(clock ?? '')
      }}
    />
  )
}
