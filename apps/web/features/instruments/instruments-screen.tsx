'use client'

import type { Instrument } from '@curebook/contract/instruments'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { ButtonLink } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { InstrumentState } from './instrument-state.tsx'
import { latestCalibration } from './instrument-facts.ts'
import { instrumentQueries } from './instruments.queries.ts'

/** Balances, ovens, baths and machines, with how their calibration stands. */
export function InstrumentsScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(instrumentQueries.list(lab.id))
  const make = lab.may('instrument:create') && (
    <>
      <ButtonLink href={`/l/${lab.short}/instruments/new`} tone="main">
        {words('instruments.new')}
      </ButtonLink>
      <ButtonLink href={`/l/${lab.short}/instruments/import`} prefetch={false}>
        {words('instruments.import')}
      </ButtonLink>
    </>
  )
  return (
    <div className="stack">
      <PageHeading screen={words('instruments.title')} under={words('instruments.under')} actions={make} />
      <Loaded query={query} what={words('instruments.these')} height="20rem">
        {({ items }) => <InstrumentTable rows={items} make={make} />}
      </Loaded>
    </div>
  )
}

function InstrumentTable({ rows, make }: { rows: readonly Instrument[]; make: React.ReactNode }) {
  const words = useWords()
  const lab = useLaboratory()
  const columns: readonly Column<Instrument>[] = [
    {
      key: 'code',
      head: words('instruments.code'),
      sort: ({ code }) => code,
      cell: ({ id, code }) => (
        <Link href={`/l/${lab.short}/instruments/${id}`} prefetch={false} className="nowrap">
          {code}
        </Link>
      ),
    },
    { key: 'name', head: words('instruments.name'), sort: ({ name }) => name, cell: ({ name }) => name },
    {
      key: 'kind',
      head: words('instruments.kind'),
      sort: ({ kind }) => kind,
      cell: ({ kind }) => words(`instruments.kind.${kind}`),
    },
    {
      key: 'state',
      head: words('instruments.calibration'),
      sort: ({ calibrations }) => latestCalibration(calibrations)?.validUntil,
      cell: (instrument) => <InstrumentState instrument={instrument} />,
    },
    { key: 'place', head: words('instruments.place'), sort: ({ place }) => place, cell: ({ place }) => place },
    {
      key: 'factors',
      head: words('instruments.factors'),
      cell: ({ factors }) => <Factors factors={factors.filter(({ current }) => current)} />,
    },
  ]
  return (
    <DataTable
      caption={words('instruments.title')}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      empty={
        <EmptyState title={words('instruments.none')} action={make}>
          {words('instruments.noneMore')}
        </EmptyState>
      }
      tall
    />
  )
}

function Factors({ factors }: { factors: Instrument['factors'] }) {
  const words = useWords()
  return (
    <ul className="plain-list">
      {factors.map(({ id, typed, unit, warnings }) => (
        <li key={id} className="nowrap">
          <span className="reading">{typed}</span> {unit}
          {warnings.length > 0 && <span className="quiet"> ({words('instruments.warned')})</span>}
        </li>
      ))}
    </ul>
  )
}
