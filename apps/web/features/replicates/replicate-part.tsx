'use client'

import type { Design } from '@curebook/contract/designs'
import type { ReplicateGroup } from '@curebook/contract/replicates'
import { useQuery } from '@tanstack/react-query'
import { DataTable, type Column } from '#components/data-table.tsx'
import { Loaded } from '#components/loaded.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { AcceptableCell, OutlierCell } from './replicate-cells.tsx'
import { ReplicateNotes } from './replicate-notes.tsx'
import { replicateQueries } from './replicates.queries.ts'

/** How far tests beside the series that were made more than once lie apart. */
export function ReplicatePart({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(replicateQueries.of(lab.id, design))
  return (
    <section className="stack stack-tight" aria-labelledby="replicates">
      <h2 id="replicates">{words('replicates.title')}</h2>
      <Loaded query={query} what={words('replicates.these')} height="8rem">
        {({ groups, apart }) => {
          const beside = groups.filter(({ place }) => place === 'panel')
          return (
            <>
              {beside.length === 0 ? (
                <p className="quiet">{words('replicates.none')}</p>
              ) : (
                <ReplicateTable groups={beside} />
              )}
              <ReplicateNotes groups={beside} apart={apart} />
            </>
          )
        }}
      </Loaded>
    </section>
  )
}

function ReplicateTable({ groups }: { groups: readonly ReplicateGroup[] }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const figure = (value: string, { displayDecimals }: ReplicateGroup) => (
    <QuantityText digits={value} decimals={displayDecimals + 1} />
  )
  const columns: readonly Column<ReplicateGroup>[] = [
    {
      key: 'result',
      head: words('replicates.result'),
      cell: ({ label, methodName, unit }) => (
        <>
          {unit === '1' ? label : words('replicates.inUnit', { label, unit })}
          <p className="quiet small">{methodName}</p>
        </>
      ),
    },
    {
      key: 'content',
      head: words('replicates.content'),
      cell: ({ emulsionPercent }) =>
        emulsionPercent === null
          ? words('replicates.anyContent')
          : words('replicates.contentOf', { content: digits(emulsionPercent) }),
    },
    { key: 'n', head: words('replicates.n'), number: true, cell: ({ n }) => n },
    // A decimal more than a result is shown with: of a mean and of scatter it says something.
    { key: 'mean', head: words('replicates.mean'), number: true, cell: (group) => figure(group.mean, group) },
    {
      key: 'sd',
      head: words('replicates.sd'),
      number: true,
      cell: (group) => figure(group.standardDeviation, group),
    },
    { key: 'range', head: words('replicates.range'), number: true, cell: (group) => figure(group.range, group) },
    ...(groups.some(({ repeatability }) => repeatability !== null)
      ? [
          {
            key: 'acceptable',
            head: words('replicates.acceptable'),
            cell: (group: ReplicateGroup) => <AcceptableCell group={group} />,
          },
        ]
      : []),
    // Where nothing was made three times the column would say so in every row.
    ...(groups.some(({ n }) => n > 2)
      ? [
          {
            key: 'outliers',
            head: words('replicates.outliers'),
            cell: (group: ReplicateGroup) => <OutlierCell group={group} />,
          },
        ]
      : []),
  ]
  return (
    <DataTable
      caption={words('replicates.title')}
      captionHidden
      columns={columns}
      rows={groups}
      idOf={({ key }) => key}
      sortParam="replicates"
      empty={null}
    />
  )
}
