'use client'

import type { Report } from '@curebook/contract/reports'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { useWords } from '#lib/words.ts'

/** The number of a report, with that of its amendment. */
export function ReportNumber({ report: { number, amendment } }: { report: Pick<Report, 'number' | 'amendment'> }) {
  const words = useWords()
  return (
    <>
      <span className="reading nowrap">{number}</span>
      {amendment > 0 && <span className="quiet"> {words('reports.amendment', { amendment })}</span>}
    </>
  )
}

const marks = { current: 'current', superseded: 'superseded', withdrawn: 'void' } as const satisfies Record<
  Report['state'],
  Status
>

/** Whether a report is in force, and what took its place. */
export function ReportState({ report: { state, replacedBy } }: { report: Pick<Report, 'state' | 'replacedBy'> }) {
  const words = useWords()
  return (
    <>
      <StatusMark status={marks[state]}>{words(`reports.state.${state}`)}</StatusMark>
      {replacedBy !== null && <div className="small">{words('reports.replacedBy', { number: replacedBy })}</div>}
    </>
  )
}
