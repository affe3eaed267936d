'use client'

import type { ScheduleRow } from '@curebook/contract/schedule'
import { isClosedDay } from '@curebook/trade/procedure/closed-days'
import { urgencyOrder } from '@curebook/trade/procedure/urgency'
import Link from 'next/link'
import { Button } from '#components/button.tsx'
import type { Column } from '#components/data-table.tsx'
import type { SortKey } from '#components/table-order.ts'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { dayOf } from '#lib/laboratory-time.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { hasNextAct } from './schedule-view.ts'
import type { ColumnKey } from './table-look.ts'
import { UrgencyText } from './urgency-text.tsx'
import { WindowText } from './window-text.tsx'
import styles from './schedule.module.css'

export type ScheduleColumn = Column<ScheduleRow> & {
  readonly key: 'test' | ColumnKey
  readonly head: string
  readonly sort: (row: ScheduleRow) => SortKey
  /** The cell as text, for a file; what stands under each other on screen is a column each there. */
  readonly file: readonly { readonly head: string; readonly text: (row: ScheduleRow) => string }[]
}

/** The columns of the schedule: on screen and in a file the same. `onGive` puts a button beside each person. */
export function useScheduleColumns(
  shown: readonly ColumnKey[],
  onGive?: (ids: readonly string[]) => void,
): readonly ScheduleColumn[] {
  const words = useWords()
  const lab = useLaboratory()
  const format = useLaboratoryFormat()
  const windowText = ({ opensAt, closesAt }: ScheduleRow) =>
    [
      opensAt === null ? '' : words('schedule.opens', { time: format.instant(opensAt, 'long') }),
      closesAt === null ? '' : words('schedule.closes', { time: format.instant(closesAt, 'long') }),
      isOnClosedDay({ opensAt, closesAt }) ? words('schedule.closedDay') : '',
    ]
      .filter((part) => part !== '')
      .join(', ')
  const isOnClosedDay = ({ opensAt, closesAt }: Pick<ScheduleRow, 'opensAt' | 'closesAt'>) => {
    const at = closesAt ?? opensAt
    return at !== null && isClosedDay(dayOf(at, lab.zone), lab.settings.closedDays)
  }
  const personName = ({ assignee }: ScheduleRow) => assignee?.name ?? words('schedule.nobody')
  const columns: readonly ScheduleColumn[] = [
    {
      key: 'test',
      head: words('schedule.test'),
      sort: ({ label }) => label,
      file: [
        { head: words('schedule.place'), text: ({ label }) => label },
        { head: words('schedule.code'), text: ({ code }) => code },
      ],
      cell: ({ testId, code, label }) => (
        <Link href={`/l/${lab.short}/bench/tests/${testId}`} prefetch={false} className="nowrap">
          {words('schedule.testName', { label, code })}
        </Link>
      ),
    },
    {
      key: 'urgency',
      head: words('schedule.urgency'),
      sort: ({ urgency }) => urgencyOrder.indexOf(urgency),
      file: [
        {
          head: words('schedule.urgency'),
          text: (row) =>
            [
              hasNextAct(row) ? words(`schedule.urgency.${row.urgency}`) : '',
              row.held === null ? '' : words(`schedule.held.${row.held}`),
            ]
              .filter((part) => part !== '')
              .join(', '),
        },
      ],
      cell: (row) => <UrgencyText row={row} />,
    },
    {
      key: 'window',
      head: words('schedule.window'),
      sort: ({ opensAt, closesAt }) => closesAt ?? opensAt,
      file: [{ head: words('schedule.window'), text: windowText }],
      cell: (row) => <WindowText row={row} closed={isOnClosedDay(row)} />,
    },
    {
      key: 'step',
      head: words('schedule.step'),
      sort: ({ stepTitle }) => stepTitle,
      file: [
        { head: words('schedule.step'), text: ({ stepTitle }) => stepTitle },
        { head: words('schedule.method'), text: ({ methodName }) => methodName },
      ],
      cell: ({ stepTitle, methodName }) => (
        <div className={styles.wide}>
          {stepTitle}
          <span className="quiet">{methodName}</span>
        </div>
      ),
    },
    {
      key: 'design',
      head: words('schedule.design'),
      sort: ({ designName }) => designName,
      file: [
        { head: words('schedule.design'), text: ({ designName }) => designName },
        { head: words('schedule.project'), text: ({ projectName }) => projectName },
      ],
      cell: ({ designId, designName, projectName }) => (
        <div className={styles.wide}>
          <Link href={`/l/${lab.short}/designs/${designId}`} prefetch={false}>
            {designName}
          </Link>
          <span className="quiet">{projectName}</span>
        </div>
      ),
    },
    {
      key: 'person',
      head: words('schedule.person'),
      sort: ({ assignee }) => assignee?.name,
      file: [
        { head: words('schedule.person'), text: personName },
        { head: words('schedule.begun'), text: ({ started }) => words(`schedule.started.${started}`) },
      ],
      cell: (row) => (
        <div className={styles.person}>
          <span>
            <span className={row.assignee === null ? 'quiet' : undefined}>{personName(row)}</span>
            {row.started && <span className="quiet">{words('schedule.started.true')}</span>}
          </span>
          {onGive !== undefined && hasNextAct(row) && (
            <Button
              size="small"
              onClick={() => onGive([row.testId])}
              aria-label={words('schedule.giveOne', { label: row.label, code: row.code })}
            >
              {words('schedule.give')}
            </Button>
          )}
        </div>
      ),
    },
  ]
  return columns.filter(({ key }) => key === 'test' || shown.includes(key))
}
