'use client'

import type { ConditionLog } from '@curebook/contract/conditions'
import { DataTable, type Column } from '#components/data-table.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'
import { linesOf, type LogLine } from './log-rows.ts'

/** As many as are read; the record holds them all. */
const most = 200

/** The last values, the newest first; where nobody measured, it says so. */
export function LogTable({ log, code }: { log: ConditionLog; code: string }) {
  const words = useWords()
  const columns: readonly Column<LogLine>[] = [
    { key: 'at', head: words('conditions.at'), cell: ({ at }) => <TimeText at={at} look="short" /> },
    {
      key: 'value',
      head: words('conditions.value'),
      unit: '°C',
      number: true,
      cell: (line) => (line.kind === 'value' ? <span className="reading">{line.value.typed}</span> : ''),
    },
    {
      key: 'state',
      head: words('conditions.state'),
      cell: (line) =>
        line.kind === 'gap' ? (
          <span className="row">
            <StatusMark status="undecided">{words('conditions.gap')}</StatusMark>
            {words('conditions.gapUntil')} <TimeText at={line.until} look="short" />
          </span>
        ) : line.value.outside === null ? (
          <span className="quiet">{words('conditions.nothingInside')}</span>
        ) : (
          <StatusMark status={line.value.outside ? 'late' : 'met'}>
            {words(line.value.outside ? 'conditions.outside' : 'conditions.inside')}
          </StatusMark>
        ),
    },
    {
      key: 'by',
      head: words('conditions.by'),
      cell: (line) => (line.kind === 'value' ? (line.value.by?.name ?? words('conditions.byKey')) : ''),
    },
  ]
  return (
    <DataTable
      caption={words('conditions.logOf', { code })}
      captionHidden
      columns={columns}
      rows={linesOf(log, most)}
      idOf={(line) => `${line.kind} ${line.kind === 'value' ? line.value.id : line.at}`}
      sortParam="log"
      tall
      empty={null}
    />
  )
}
