'use client'

import type { ExpectedDay } from '@curebook/contract/expected-days'
import { DayText, TimeText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'

/** When the report is expected, and each change of that day with its date and reason, the newest first. */
export function ExpectedText({ days }: { days: readonly ExpectedDay[] }) {
  const words = useWords()
  const [stands] = days
  if (stands === undefined) return null
  const changes = days.filter(({ from }) => from !== null)
  return (
    <>
      <p>
        {words('expected.day')} <DayText day={stands.day} />
      </p>
      {changes.length > 0 && (
        <ul className="plain-list small" aria-label={words('expected.changes')}>
          {changes.map(({ id, day, from, reason, at }) => (
            <li key={id}>
              {words('expected.changed')} <TimeText at={at} look="day" />: {words('expected.from')}{' '}
              <DayText day={from ?? day} /> {words('expected.to')} <DayText day={day} />. {reason}
            </li>
          ))}
        </ul>
      )}
    </>
  )
}
