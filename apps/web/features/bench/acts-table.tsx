'use client'

import type { BenchTask } from '@curebook/contract/bench'
import Link from 'next/link'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { SpecimenMark } from '#components/specimen-mark.tsx'
import { WindowBar } from '#components/window-bar.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { testPlace } from './bench-groups.ts'
import { useLaboratoryNow } from './laboratory-clock.ts'

/** Specimens that wait for the act; a range is chosen with Shift. */
export function ActsTable({
  rows,
  chosen,
  onChange,
}: {
  rows: readonly BenchTask[]
  chosen: ReadonlySet<string>
  onChange: (chosen: ReadonlySet<string>) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const now = useLaboratoryNow()
  const nameOf = ({ label, code }: BenchTask) => words('bench.name', { label, code })
  const columns: readonly Column<BenchTask>[] = [
    {
      key: 'specimen',
      head: words('bench.specimen'),
      cell: (task) => (
        <Link
          href={testPlace(lab.short, task.testId)}
          prefetch={false}
          className="row"
          style={{ flexWrap: 'nowrap', minHeight: '2.75rem' }}
        >
          <SpecimenMark form={task.form} code={task.code} />
          {task.label}
        </Link>
      ),
    },
    {
      key: 'window',
      head: words('bench.window'),
      cell: (task) =>
        task.opensAt === null && task.closesAt === null ? (
          words('bench.noWindow')
        ) : (
          <WindowBar now={now} opensAt={task.opensAt} closesAt={task.closesAt} name={nameOf(task)} />
        ),
    },
    { key: 'design', head: words('bench.design'), cell: ({ designName }) => designName },
  ]
  const byId = new Map(rows.map((row) => [row.testId, row]))
  return (
    <DataTable
      caption={words('bench.acts.table')}
      columns={columns}
      rows={rows}
      idOf={({ testId }) => testId}
      sortParam="acts"
      selection={{
        chosen: new Set([...chosen].filter((id) => byId.has(id))),
        onChange,
        nameOf: (id) => {
          const task = byId.get(id)
          return task === undefined ? '' : nameOf(task)
        },
      }}
      empty={<EmptyState title={words('bench.acts.none')} />}
    />
  )
}
