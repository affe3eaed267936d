'use client'

import type { ConditionLog, ConditionValue } from '@curebook/contract/conditions'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { linesOf, type LogLine } from './log-rows.ts'

/** As many as are read; the record holds them all. */
const most = 200

/** The last values, the newest first; where nobody measured, it says so. What somebody mistyped is put right from here. */
export function LogTable({
  log,
  code,
  onCorrect,
}: {
  log: ConditionLog
  code: string
  onCorrect: ((value: ConditionValue) => void) | undefined
}) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const columns: readonly Column<LogLine>[] = [
    { key: 'at', head: words('conditions.at'), cell: ({ at }) => <TimeText at={at} look="short" /> },
    {
      key: 'value',
      head: words('conditions.value'),
      unit: '°C',
      number: true,
      cell: (line) =>
        line.kind === 'value' && (
          <>
            {line.value.corrects !== null && (
              <>
                <s className="quiet">{line.value.corrects.typed}</s>{' '}
              </>
            )}
            <span className="reading">{line.value.typed}</span>
          </>
        ),
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
      cell: (line) =>
        line.kind === 'value' && (
          <>
            {line.value.by?.name ?? words('conditions.byKey')}
            {/* Answers that a device kept earlier have no such field. */}
            {(line.value.note ?? null) !== null && (
              <span className="quiet"> {words('conditions.note', { note: line.value.note })}</span>
            )}
            {line.value.corrects !== null && (
              <span className="quiet">
                {' '}
                {words('conditions.corrected', {
                  typed: line.value.corrects.typed,
                  name: line.value.corrects.name,
                  reason: line.value.corrects.reason,
                })}
              </span>
            )}
          </>
        ),
    },
    ...(onCorrect === undefined
      ? []
      : [
          {
            key: 'correct',
            head: words('conditions.correct'),
            cell: (line: LogLine) =>
              line.kind === 'value' &&
              line.value.by !== null && (
                <Button
                  size="small"
                  onClick={() => onCorrect(line.value)}
                  aria-label={words('conditions.correctNamed', {
                    typed: line.value.typed,
                    at: format.instant(line.value.at, 'short'),
                  })}
                >
                  {words('conditions.correct')}
                </Button>
              ),
          },
        ]),
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
