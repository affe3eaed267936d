'use client'

import type { PutIn, SettledPutIn } from '@curebook/contract/put-in'
import type { PutInRow } from '@curebook/trade/procedure/put-in'
import { DataTable, type Column } from '#components/data-table.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'

type Row = SettledPutIn['rows'][number]

/** The list that was settled: by whom, when, on which machine, and what is planned otherwise by now. */
export function SettledList({ data, rows }: { data: PutIn; rows: readonly PutInRow[] }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const { settled } = data
  if (settled === null) return null
  const planned = new Map(rows.map((row) => [row.id, row.plannedStart]))
  const columns: readonly Column<Row>[] = [
    {
      key: 'specimen',
      head: words('putIn.specimen'),
      cell: ({ label, code }) => <span className="nowrap">{words('putIn.name', { label, code })}</span>,
    },
    {
      key: 'putIn',
      head: words('putIn.putInAt'),
      cell: ({ putInAt }) =>
        putInAt === null ? (
          <span className="quiet">{words('putIn.inBath')}</span>
        ) : (
          <TimeText at={putInAt} look="short" />
        ),
    },
    { key: 'start', head: words('putIn.settled.start'), cell: ({ startAt }) => <TimeText at={startAt} look="short" /> },
    {
      key: 'must',
      head: words('putIn.mustStart'),
      cell: ({ mustStartAt }) => <TimeText at={mustStartAt} look="short" />,
    },
    {
      key: 'now',
      head: words('putIn.settled.now'),
      cell: ({ testId, startAt }) => {
        const start = planned.get(testId)
        if (start === undefined) return <span className="quiet">{words('putIn.settled.gone')}</span>
        if (start === Date.parse(startAt)) return words('putIn.settled.same')
        return words('putIn.settled.otherwise', { time: format.instant(new Date(start).toISOString(), 'short') })
      },
    },
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="settled-title">
      <h2 id="settled-title">{words('putIn.settled.title')}</h2>
      <p>
        {words('putIn.settled.by', {
          name: settled.by.name,
          machine: settled.instrument?.code ?? 'none',
          run: settled.runMinutes,
        })}{' '}
        <TimeText at={settled.at} />
      </p>
      {settled.reason !== null && <p>{words('putIn.settled.reason', { reason: settled.reason })}</p>}
      <DataTable
        caption={words('putIn.settled.caption', { count: settled.rows.length })}
        columns={columns}
        rows={settled.rows}
        idOf={({ testId }) => testId}
        sortParam="settled"
        empty={null}
      />
    </section>
  )
}
