'use client'

import type { PutIn } from '@curebook/contract/put-in'
import type { PutInRow } from '@curebook/trade/procedure/put-in'
import Link from 'next/link'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import styles from './put-in.module.css'

/** Every specimen with its times; what lies in the bath already stands first, with its own window. */
export function PutInTable({ rows, data }: { rows: readonly PutInRow[]; data: PutIn }) {
  const words = useWords()
  const lab = useLaboratory()
  const format = useLaboratoryFormat()
  const known = new Map([...data.waiting, ...data.soaking, ...data.elsewhere].map((test) => [test.testId, test]))
  const elsewhereOf = (id: string) => data.elsewhere.find(({ testId }) => testId === id)
  const readyOf = (id: string) => data.waiting.find(({ testId }) => testId === id)?.ready ?? true
  const time = (ms: number) => (
    <span className={styles.time}>{format.instant(new Date(ms).toISOString(), 'short')}</span>
  )
  const mark = ({ id, putIn, late, lateFor, missed }: PutInRow) =>
    missed ? (
      <StatusMark status="late">{words('putIn.missed')}</StatusMark>
    ) : late ? (
      <StatusMark status="late">{words(lateFor === 'break' ? 'putIn.breakInWay' : 'putIn.willBeLate')}</StatusMark>
    ) : putIn === null ? (
      <StatusMark status="running">{words('putIn.soaks')}</StatusMark>
    ) : (
      <StatusMark status={readyOf(id) ? 'due' : 'waiting'}>
        {words(readyOf(id) ? 'putIn.ready' : 'putIn.notReady')}
      </StatusMark>
    )
  const columns: readonly Column<PutInRow>[] = [
    {
      key: 'specimen',
      head: words('putIn.specimen'),
      cell: ({ id, label }) => (
        <Link href={`/l/${lab.short}/bench/tests/${id}`} prefetch={false} className="nowrap">
          {words('putIn.name', { label, code: known.get(id)?.code ?? '' })}
        </Link>
      ),
    },
    {
      key: 'putIn',
      head: words('putIn.putInAt'),
      cell: ({ putIn }) => (putIn === null ? <span className="quiet">{words('putIn.inBath')}</span> : time(putIn)),
    },
    { key: 'may', head: words('putIn.mayStart'), cell: ({ mayStart }) => time(mayStart) },
    { key: 'must', head: words('putIn.mustStart'), cell: ({ mustStart }) => time(mustStart) },
    { key: 'planned', head: words('putIn.planned'), cell: ({ plannedStart }) => time(plannedStart) },
    {
      key: 'state',
      head: words('putIn.state'),
      cell: (row) => (
        <span className="stack stack-tight">
          {mark(row)}
          {elsewhereOf(row.id) !== undefined && (
            <span className="small">
              {words('putIn.elsewhere', {
                design: elsewhereOf(row.id)?.designName ?? '',
                method: elsewhereOf(row.id)?.methodName ?? '',
              })}
            </span>
          )}
          {row.moved && !row.late && <span className="small">{words('putIn.moved')}</span>}
        </span>
      ),
    },
  ]
  return (
    <DataTable
      caption={words('putIn.caption', { count: rows.length })}
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      sortParam="list"
      empty={<EmptyState title={words('putIn.none')}>{words('putIn.noneMore')}</EmptyState>}
    />
  )
}
