'use client'

import type { Design } from '@curebook/contract/designs'
import type { Limit } from '@curebook/contract/specifications'
import { differsFromProject } from '@curebook/contract/specification-difference'
import { sourceMark } from '@curebook/contract/source-mark'
import Link from 'next/link'
import { DataTable, type Column } from '#components/data-table.tsx'
import { SpecificationLink } from '#features/project-specifications/specification-link.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

/** The guideline's values as the contract adopted them: each limit with its source, its mark, and what was changed. */
export function SpecificationPart({ design }: { design: Design }) {
  const { specification } = design
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
      <NotTheProjects design={design} />
      <dl className="facts">
        <div>
          <dt>{words('designs.specificationName')}</dt>
          <dd>
            {words('designs.specificationRevision', { name: specification.name, version: specification.version })}
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

/** Where the project stands on another one: which, and why this design does not. */
function NotTheProjects({ design }: { design: Design }) {
  const words = useWords()
  const { projectSpecification: own, specificationReason: reason, projectId } = design
  const lab = useLaboratory()
  if (own === null || !differsFromProject(design)) return null
  return (
    <p className="caution prose" role="note">
      {words('designs.notTheProjects')} <SpecificationLink of={own} />.{' '}
      {reason === null ? words('projectSpecification.setAfterwards') : words('designs.whyAnother', { reason })}
      <span style={{ display: 'block' }}>
        <Link href={`/l/${lab.short}/projects/${projectId}`} prefetch={false}>
          {words('designs.toProject')}
        </Link>
      </span>
    </p>
  )
}

function LimitTable({ limits }: { limits: readonly Limit[] }) {
  const words = useWords()
  const { digits, quantity } = useLaboratoryFormat()
  const limitWords = ({ value, upper, unit, sense }: Limit): string => {
    if (sense === 'declared') return words('designs.declared')
    if (value === null) return words('designs.noLimit')
    if (sense === 'between') return words('designs.span', { from: digits(value), to: quantity(upper ?? '', unit) })
    return words(`designs.sense.${sense}`, { value: quantity(value, unit) })
  }
  const columns: readonly Column<Limit>[] = [
    { key: 'property', head: words('designs.property'), cell: ({ label }) => label },
    {
      key: 'limit',
      head: words('designs.limit'),
      cell: (limit) => [limitWords(limit), limit.condition].filter(Boolean).join(', '),
    },
    {
      key: 'us',
      head: words('designs.usLimit'),
      cell: ({ usValue, usUnit }) => (usValue === null || usUnit === null ? '' : quantity(usValue, usUnit)),
    },
    // The facts above say it for all of them.
    ...(new Set(limits.map(({ comparison }) => comparison)).size > 1
      ? [{ key: 'comparison', head: words('designs.comparison'), cell: ({ comparison }: Limit) => comparison }]
      : []),
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
                  : changedFrom.upper === null
                    ? `${digits(changedFrom.value)} ${changedFrom.unit || unit}`
                    : words('designs.span', {
                        from: digits(changedFrom.value),
                        to: quantity(changedFrom.upper, changedFrom.unit || unit),
                      }),
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
