'use client'

import type { HandedTest } from '@curebook/contract/hand-overs'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'

/** Tests that go from one to the other, with what is next for each, until when, and where it stands. */
export function HandedTests({ caption, tests }: { caption: string; tests: readonly HandedTest[] }) {
  const words = useWords()
  const columns: readonly Column<HandedTest>[] = [
    {
      key: 'test',
      head: words('handOver.specimen'),
      cell: ({ label, code }) => <span className="reading">{words('bench.name', { label, code })}</span>,
    },
    {
      key: 'next',
      head: words('handOver.next'),
      cell: ({ stepTitle, methodName, designName }) => (
        <>
          {stepTitle}
          <div className="quiet small">{words('bench.row.where', { method: methodName, design: designName })}</div>
        </>
      ),
    },
    {
      key: 'window',
      head: words('handOver.window'),
      cell: ({ opensAt, closesAt, urgency }) => (
        <>
          {words(`bench.urgency.${urgency}`)}
          {closesAt !== null ? (
            <div>
              {words('handOver.until')} <TimeText at={closesAt} look="short" />
            </div>
          ) : (
            opensAt !== null && (
              <div>
                {words('handOver.from')} <TimeText at={opensAt} look="short" />
              </div>
            )
          )}
        </>
      ),
    },
    // Without anything in an oven or bath there is no column to look for it in.
    ...(tests.every(({ standsIn }) => standsIn === null)
      ? []
      : [{ key: 'in', head: words('handOver.standsIn'), cell: ({ standsIn }: HandedTest) => standsIn ?? '' }]),
  ]
  return (
    <DataTable
      caption={caption}
      columns={columns}
      rows={tests}
      idOf={({ testId }) => testId}
      empty={<EmptyState title={words('handOver.nothing')} />}
    />
  )
}
