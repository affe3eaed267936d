'use client'

import type { Limit, Specification } from '@curebook/contract/specifications'
import { sourceMark } from '@curebook/contract/source-mark'
import { DataTable, type Column } from '#components/data-table.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'

/** The guideline's values as the contract adopted them: each limit with its source, its mark, and what was changed. */
export function SpecificationPart({ specification }: { specification: Specification }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const { residualBand: band } = specification
  const span = (from: string | null, to: string | null) =>
    words('designs.span', {
      from: from === null ? words('designs.spanOpen') : digits(from),
      to: to === null ? words('designs.spanOpen') : digits(to),
    })
  return (
    <section className="stack stack-tight" aria-labelledby="specification">
      <h2 id="specification">{words('designs.specification')}</h2>
      <dl className="facts">
        <div>
          <dt>{words('designs.specificationName')}</dt>
          <dd>
            {words('designs.specificationRevision', { name: specification.name, revision: specification.revision })}
          </dd>
        </div>
        <div>
          <dt>{words('designs.adoptedFrom')}</dt>
          <dd>{specification.source}</dd>
        </div>
        <div>
          <dt>{words('designs.aggregateType')}</dt>
          <dd>
            {specification.aggregateType}, {words(`designs.traffic.${specification.traffic}`)}
          </dd>
        </div>
        <div>
          <dt>{words('designs.band')}</dt>
          <dd>
            {span(band.from, band.to)} {band.unit} <span className="quiet small">{sourceMark(band)}</span>
            {band.changedFrom !== null && (
              <span className="small">
                {' '}
                {words('designs.bandChanged', {
                  span: span(band.changedFrom.from, band.changedFrom.to),
                  source: band.changedFrom.source,
                })}
              </span>
            )}
          </dd>
        </div>
        <div>
          <dt>{words('designs.decisionRule')}</dt>
          <dd>{specification.decisionRule}</dd>
        </div>
        <div>
          <dt>{words('designs.comparison')}</dt>
          <dd>{specification.comparison}</dd>
        </div>
      </dl>
      <LimitTable limits={specification.limits} />
    </section>
  )
}

function LimitTable({ limits }: { limits: readonly Limit[] }) {
  const words = useWords()
  const { digits, quantity } = useLaboratoryFormat()
  const columns: readonly Column<Limit>[] = [
    { key: 'property', head: words('designs.property'), cell: ({ label }) => label },
    {
      key: 'limit',
      head: words('designs.limit'),
      cell: ({ value, unit, sense, condition }) =>
        value === null
          ? words('designs.noLimit')
          : [words(`designs.sense.${sense}`, { value: quantity(value, unit) }), condition].filter(Boolean).join(', '),
    },
    {
      key: 'us',
      head: words('designs.usLimit'),
      cell: ({ usValue, usUnit }) => (usValue === null || usUnit === null ? '' : quantity(usValue, usUnit)),
    },
    { key: 'source', head: words('designs.source'), cell: (limit) => sourceMark(limit) },
    {
      key: 'change',
      head: words('designs.change'),
      cell: ({ changedFrom, changeReason, unit }) =>
        changedFrom === null
          ? ''
          : words('designs.changedFrom', {
              value:
                changedFrom.value === null
                  ? words('designs.noLimit')
                  : `${digits(changedFrom.value)} ${changedFrom.unit || unit}`,
              source: changedFrom.source,
              reason: changeReason ?? '',
            }),
    },
  ]
  return (
    <DataTable
      caption={words('designs.limits')}
      columns={columns}
      rows={limits}
      idOf={({ key }) => key}
      sortParam="limits"
      empty={null}
    />
  )
}
