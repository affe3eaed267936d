'use client'

import type { Ovens } from '@curebook/contract/loads'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { BenchFrame } from '#features/bench/bench-frame.tsx'
import { InstrumentFault } from '#features/bench/instrument-fault.tsx'
import { useWaitingValues } from '#features/conditions/conditions.queries.ts'
import { LogPart } from '#features/conditions/log-part.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { LoadPart } from './load-part.tsx'
import { LoadEntries } from './load-entries.tsx'
import { loadQueries, useWaitingLoads } from './loads.queries.ts'
import { LoadWorkDialog, type LoadWork } from './load-work.tsx'
import { SpecimenTable } from './specimen-table.tsx'
import { notInThese, type WaitingLoad, withWaiting } from './waiting-loads.ts'

/** What stands in each oven and bath now, of whatever project: in, out, temperature, constant mass. */
export function OvensScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(loadQueries.list(lab.id))
  const here = useWaitingLoads()
  const values = useWaitingValues()
  const [work, setWork] = useState<LoadWork>()
  return (
    <BenchFrame heading={<PageHeading screen={words('loads.title')} under={words('loads.under')} />}>
      <Loaded query={query} what={words('loads.these')} height="32rem">
        {(record) => {
          const ovens = withWaiting(record, here, lab.me)
          return (
            <>
              <LoadEntries entries={[...notInThese(ovens, here), ...values.filter(isElsewhere(ovens))]} />
              {ovens.instruments.length === 0 && (
                <EmptyState title={words('loads.noOvens')}>{words('loads.noOvensMore')}</EmptyState>
              )}
              {ovens.instruments.map((instrument) => (
                <OvenPart key={instrument.id} instrument={instrument} ovens={ovens} here={here} onWork={setWork} />
              ))}
              <Unplaced ovens={ovens} />
            </>
          )
        }}
      </Loaded>
      {work !== undefined && (
        <LoadWorkDialog work={work} readers={query.data?.readers ?? []} onClose={() => setWork(undefined)} />
      )}
    </BenchFrame>
  )
}

/** Of an oven or bath that is not shown, since it is out of service. */
const isElsewhere =
  ({ instruments }: Ovens) =>
  ({ instrumentId }: { readonly instrumentId: string }) =>
    instruments.every(({ id }) => id !== instrumentId)

function OvenPart({
  instrument,
  ovens,
  here,
  onWork,
}: {
  instrument: Ovens['instruments'][number]
  ovens: Ovens
  here: readonly WaitingLoad[]
  onWork: (work: LoadWork) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const waiting = ovens.waiting.filter(({ kind }) => kind === instrument.kind)
  return (
    <section className="stack" aria-labelledby={`oven-${instrument.id}`}>
      <div className="row row-between">
        <h2 id={`oven-${instrument.id}`}>
          {instrument.code} <span className="quiet">{instrument.name}</span>
        </h2>
        {lab.may('load:update') && waiting.length > 0 && (
          <Button
            size="bench"
            onClick={() => onWork({ what: 'in', instrument, waiting })}
            aria-label={words('loads.putInNamed', { code: instrument.code })}
          >
            {words('loads.putIn', { count: waiting.length })}
          </Button>
        )}
      </div>
      <InstrumentFault instrument={instrument} />
      <LoadEntries
        entries={here.filter(
          ({ loadId, opens }) => opens === instrument.id || instrument.loads.some(({ id }) => id === loadId),
        )}
      />
      {instrument.alone.length === 0 && instrument.loads.every(({ specimens }) => specimens.length === 0) && (
        <p className="quiet">{words(`loads.empty.${instrument.kind}`)}</p>
      )}
      {instrument.loads.map((load, index) => (
        <LoadPart key={load.id} load={load} number={index + 1} code={instrument.code} onWork={onWork} />
      ))}
      {instrument.alone.length > 0 && (
        <div className="stack stack-tight">
          <p>{words('loads.alone')}</p>
          <SpecimenTable
            caption={words('loads.aloneIn', { code: instrument.code })}
            rows={instrument.alone}
            sortParam={`alone-${instrument.code}`}
          />
        </div>
      )}
      <LogPart instrumentId={instrument.id} code={instrument.code} />
    </section>
  )
}

/** In an oven or bath by their acts; in which one was not said. */
function Unplaced({ ovens }: { ovens: Ovens }) {
  const words = useWords()
  if (ovens.unplaced.length === 0) return null
  return (
    <section className="stack" aria-labelledby="unplaced">
      <h2 id="unplaced">{words('loads.unplaced')}</h2>
      <p>{words('loads.unplacedMore')}</p>
      <SpecimenTable caption={words('loads.unplaced')} rows={ovens.unplaced} sortParam="unplaced" />
    </section>
  )
}
