'use client'

import { checksOfInstrument } from '@curebook/contract/instrument-check-kinds'
import type { Instrument } from '@curebook/contract/instruments'
import { partsOfMachine } from '@curebook/contract/machine-parts'
import { useQuery } from '@tanstack/react-query'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { CalibrationPart } from './calibration-part.tsx'
import { ChecksPart } from './checks-part.tsx'
import { ChangeInstrumentButton } from './change-instrument.tsx'
import { FactorPart } from './factor-part.tsx'
import { factorKeyOf } from './instrument-facts.ts'
import { InstrumentState } from './instrument-state.tsx'
import { LinePart } from './line-part.tsx'
import { PartsPart } from './parts-part.tsx'
import { instrumentQueries } from './instruments.queries.ts'
import { ServiceButton } from './service-button.tsx'

/** One instrument: what it is, its factors where it is a machine, its calibrations. */
export function InstrumentScreen({ id }: { id: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(instrumentQueries.one(lab.id, id))
  const instrument = query.data
  return (
    <div className="stack stack-wide">
      <div className="stack">
        <Breadcrumb trail={[{ href: `/l/${lab.short}/instruments`, label: words('instruments.title') }]} />
        <PageHeading
          screen={words('instruments.title')}
          thing={instrument?.code}
          under={instrument?.name}
          failed={query.isError}
          actions={
            instrument &&
            lab.may('instrument:update') && (
              <>
                <ChangeInstrumentButton instrument={instrument} />
                <ServiceButton instrument={instrument} />
              </>
            )
          }
        />
      </div>
      <Loaded query={query} what={words('instruments.thisOne')} height="24rem">
        {(loaded) => {
          const factorKey = factorKeyOf(loaded)
          return (
            <>
              <Facts instrument={loaded} />
              {factorKey !== undefined && <FactorPart instrument={loaded} factorKey={factorKey} />}
              {loaded.kind in partsOfMachine && <PartsPart instrument={loaded} />}
              {loaded.kind === 'balance' && <LinePart instrument={loaded} />}
              {loaded.kind in checksOfInstrument && <ChecksPart instrument={loaded} />}
              <CalibrationPart instrument={loaded} />
            </>
          )
        }}
      </Loaded>
    </div>
  )
}

function Facts({ instrument }: { instrument: Instrument }) {
  const words = useWords()
  const { capacity, capacityUnit, resolution } = instrument
  return (
    <dl className="facts panel">
      <div>
        <dt>{words('instruments.state')}</dt>
        <dd>
          <InstrumentState instrument={instrument} />
        </dd>
      </div>
      <div>
        <dt>{words('instruments.kind')}</dt>
        <dd>{words(`instruments.kind.${instrument.kind}`)}</dd>
      </div>
      <div>
        <dt>{words('instruments.serial')}</dt>
        <dd>{instrument.serial || words('instruments.nothing')}</dd>
      </div>
      <div>
        <dt>{words('instruments.place')}</dt>
        <dd>{instrument.place || words('instruments.nothing')}</dd>
      </div>
      {capacity !== null && (
        <div>
          <dt>{words('instruments.capacity')}</dt>
          <dd>
            <QuantityText digits={capacity} unit={capacityUnit} />
          </dd>
        </div>
      )}
      {resolution !== null && (
        <div>
          <dt>{words('instruments.resolution')}</dt>
          <dd>
            <QuantityText digits={resolution} unit={capacityUnit} />
          </dd>
        </div>
      )}
    </dl>
  )
}
