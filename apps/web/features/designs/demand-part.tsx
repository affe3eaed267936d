'use client'

import type { DemandCheck, DemandRow } from '@curebook/contract/demand'
import type { Design } from '@curebook/contract/designs'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { DataTable, type Column } from '#components/data-table.tsx'
import { Loaded } from '#components/loaded.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { designQueries } from './designs.queries.ts'
import { enoughOf, kilograms } from './demand-words.ts'

/** What the planned series takes of each material against what arrived, and the way to the sheet for the client. */
export function DemandPart({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(designQueries.demand(lab.id, design.id))
  return (
    <section className="stack stack-tight no-print" aria-labelledby="demand">
      <div className="row row-between">
        <h2 id="demand">{words('designs.demand')}</h2>
        <Link href={`/l/${lab.short}/designs/${design.id}/please-send`} prefetch={false}>
          {words('designs.toPleaseSend')}
        </Link>
      </div>
      <Loaded query={query} what={words('designs.theDemand')} height="12rem">
        {(check) => <DemandTable check={check} />}
      </Loaded>
    </section>
  )
}

/** The check itself: grams of the series, of the other tests, what arrived, and whether that is enough. */
export function DemandTable({ check }: { check: DemandCheck }) {
  const words = useWords()
  const mass = (key: 'seriesG' | 'otherG' | 'neededG' | 'arrivedG'): Column<DemandRow> => ({
    key,
    head: words(`designs.demand.${key}`),
    unit: 'kg',
    number: true,
    cell: (row) => (row[key] === null ? '–' : <QuantityText digits={kilograms(row[key])} decimals={2} />),
  })
  const columns: readonly Column<DemandRow>[] = [
    {
      key: 'component',
      head: words('designs.demand.material'),
      cell: ({ component, sample }) => (
        <>
          {words(`designs.demand.of.${component}`)} {sample !== null && <span className="quiet">{sample.code}</span>}
        </>
      ),
    },
    mass('seriesG'),
    mass('otherG'),
    mass('neededG'),
    mass('arrivedG'),
    { key: 'enough', head: words('designs.demand.enough'), cell: (row) => <Enough row={row} /> },
  ]
  if (check.refusal !== null) return <p>{check.refusal}</p>
  return (
    <div className="stack stack-tight">
      <p className="quiet">{words('designs.demandAbout', { count: check.specimens })}</p>
      <DataTable
        caption={words('designs.demand')}
        captionHidden
        columns={columns}
        rows={check.rows}
        idOf={({ component }) => component}
        empty={null}
      />
      <ul className="small quiet">
        {check.assumed.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </div>
  )
}

function Enough({ row }: { row: DemandRow }) {
  const words = useWords()
  const { quantity } = useLaboratoryFormat()
  const enough = enoughOf(row)
  if (enough === 'unknown') return <StatusMark status="open">{words('designs.demand.unknown')}</StatusMark>
  if (enough === 'enough') return <StatusMark status="decided">{words('designs.demand.yes')}</StatusMark>
  const short = quantity(kilograms(row.shortG ?? '0'), 'kg', 2)
  return <StatusMark status="refused">{words('designs.demand.short', { short })}</StatusMark>
}
