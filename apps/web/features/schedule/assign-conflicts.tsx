'use client'

import type { AssignmentConflict, AssignmentConflicts } from '@curebook/contract/schedule'
import { hoursAndMinutes } from '@curebook/trade/procedure/person-load'
import type { UseQueryResult } from '@tanstack/react-query'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'

const shownTests = 6

/** What speaks against it, in sentences, before it is confirmed; said as well when nothing does. */
export function AssignConflicts({
  check,
  name,
}: {
  check: UseQueryResult<AssignmentConflicts>
  /** Null: the tests are taken back. */
  name: string | null
}) {
  const words = useWords()
  const conflicts = check.data?.conflicts ?? []
  return (
    <div role="status" className={conflicts.length > 0 ? 'caution' : 'panel'} aria-busy={check.isPending}>
      {check.isPending ? (
        <p>{words('schedule.checking')}</p>
      ) : check.isError ? (
        <p>{words('schedule.notChecked')}</p>
      ) : conflicts.length === 0 ? (
        <p>{words('schedule.noConflict')}</p>
      ) : (
        <ul>
          {conflicts.map((conflict) => (
            <li key={JSON.stringify(conflict)}>
              <ConflictText conflict={conflict} name={name ?? ''} />
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}

function ConflictText({ conflict, name }: { conflict: AssignmentConflict; name: string }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const listed = (tests: readonly { readonly label: string; readonly code: string }[]) =>
    words('schedule.tests.listed', {
      labels: tests
        .slice(0, shownTests)
        .map(({ label, code }) => words('schedule.testName', { label, code }))
        .join(', '),
      more: Math.max(0, tests.length - shownTests),
    })
  switch (conflict.kind) {
    case 'refused':
      return conflict.sentence
    case 'not-authorised':
      return words('schedule.conflict.not-authorised', {
        sentence: conflict.sentence,
        tests: listed(conflict.tests),
      })
    case 'begun':
      return words('schedule.conflict.begun', { tests: listed(conflict.tests) })
    case 'closed-day':
      return words('schedule.conflict.closed-day', { day: format.day(conflict.day), tests: listed(conflict.tests) })
    case 'over-shift':
      return words('schedule.conflict.over-shift', {
        name,
        day: format.day(conflict.day),
        hours: hoursAndMinutes(conflict.minutes),
        shift: hoursAndMinutes(conflict.shiftMinutes),
      })
    case 'crowded':
      return words('schedule.conflict.crowded', {
        name,
        from: format.instant(conflict.from, 'short'),
        to: format.instant(conflict.to, 'short'),
        hours: hoursAndMinutes(conflict.minutes),
        tests: listed(conflict.tests),
      })
    case 'overlap':
      return words('schedule.clash', { name, steps: conflict.steps.join(', ') })
  }
}
