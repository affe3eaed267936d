'use client'

import type { Method } from '@curebook/contract/methods'
import { dayAfter, isClosedDay } from '@curebook/trade/procedure/closed-days'
import { useState } from 'react'
import { FieldSet } from '#components/field-set.tsx'
import { Select } from '#components/select.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { dayOf } from '#lib/laboratory-time.ts'
import { useWords } from '#lib/words.ts'
import { castDaysOf, runsInWords, type CastDays } from './casting-days.ts'

const daysAhead = 14

/** Said when it is planned, not on a Saturday: on which weekdays each test is cast, and what the chosen day would lead to. */
export function CastDaysOf({ methods }: { methods: readonly Method[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const format = useLaboratoryFormat()
  const [today] = useState(() => dayOf(new Date().toISOString(), lab.zone))
  const [day, setDay] = useState(today)
  const { closedDays } = lab.settings
  const days = castDaysOf(methods, closedDays, day)
  if (days.length === 0) return null
  return (
    <FieldSet legend={words('designs.castDays')}>
      <ul>
        {days.map(({ key, name, runs }) => (
          <li key={key}>
            {runs.length === 0
              ? words('designs.castNoDay', { test: name })
              : words('designs.castOn', { test: name, days: runsInWords(runs, format.language) })}
          </li>
        ))}
      </ul>
      <Select
        name="castDay"
        label={words('designs.castDay')}
        value={day}
        onChange={(event) => setDay(event.target.value)}
        options={Array.from({ length: daysAhead }, (_, index) => dayAfter(today, index)).map((one) => ({
          value: one,
          label: isClosedDay(one, closedDays)
            ? words('designs.castDayClosed', { day: format.day(one) })
            : format.day(one),
        }))}
      />
      <Outcome day={day} days={days} />
    </FieldSet>
  )
}

function Outcome({ day, days }: { day: string; days: readonly CastDays[] }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const hindered = days.filter(({ closed }) => closed.length > 0)
  return (
    <div role="status" className={hindered.length > 0 ? 'caution' : 'panel'}>
      {hindered.length === 0 ? (
        <p>{words('designs.castDayFits', { day: format.day(day) })}</p>
      ) : (
        <ul>
          {hindered.map(({ key, name, closed, next }) => (
            <li key={key}>
              {words('designs.castDayHindered', {
                test: name,
                day: format.day(day),
                steps: closed
                  .map((need) => words('designs.castStep', { step: need.title, day: format.day(need.day) }))
                  .join(', '),
              })}{' '}
              {next !== null && words('designs.castNext', { day: format.day(next) })}
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}
