'use client'

import type { Load } from '@curebook/contract/loads'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { LoadReadings } from './load-readings.tsx'
import type { LoadWork } from './load-work.tsx'
import { SpecimenTable } from './specimen-table.tsx'

/** One load: what stands in it, whether it is dry, its temperatures, and what is done with it. */
export function LoadPart({
  load,
  number,
  code,
  onWork,
}: {
  load: Load
  number: number
  code: string
  /** Opens the dialog of it, on the whole screen: this part may go while it is open. */
  onWork: (work: LoadWork) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const name = words('loads.load', { number, code })
  const removable = load.specimens.filter(({ endsHere }) => endsHere)
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set())
  const mayWork = lab.may('load:update')
  const nameOf = (id: string) => {
    const found = load.specimens.find(({ testId }) => testId === id)
    return words('loads.named', { label: found?.label ?? '', code: found?.code ?? '' })
  }
  const taken = removable.filter(({ testId }) => chosen.has(testId))
  return (
    <section className="panel stack stack-tight" aria-label={name}>
      <p className="row">
        <span className="strong">{name}</span>
        <span className="quiet">
          <TimeText at={load.openedAt} look="short" />, {load.by.name}
        </span>
        <LastTemperature load={load} />
      </p>
      <SpecimenTable
        caption={name}
        rows={load.specimens}
        sortParam={`load-${load.id.slice(-6)}`}
        selection={mayWork && removable.length > 0 ? { chosen, onChange: setChosen, nameOf } : undefined}
      />
      {load.constantMass !== null && (
        <p className="row">
          <StatusMark status={load.constantMass.reached ? 'met' : 'running'}>
            {words(load.constantMass.reached ? 'loads.dry' : 'loads.drying')}
          </StatusMark>
          {load.constantMass.sentence}
        </p>
      )}
      {mayWork && load.specimens.length > 0 && (
        <div className="row">
          {removable.length > 0 && (
            <Button
              size="bench"
              tone="main"
              onClick={() =>
                onWork({
                  what: 'out',
                  load,
                  name,
                  specimens: taken.length === 0 ? removable : taken,
                  onDone: () => setChosen(new Set()),
                })
              }
              aria-label={words('loads.takeOutOf', { name })}
            >
              {words('loads.takeOut', { count: taken.length === 0 ? removable.length : taken.length })}
            </Button>
          )}
          <Button
            size="bench"
            onClick={() => onWork({ what: 'temperature', load, name })}
            aria-label={words('loads.readTemperatureOf', { name })}
          >
            {words('loads.readTemperature')}
          </Button>
          {load.constantMass !== null && (
            <Button
              size="bench"
              onClick={() => onWork({ what: 'warm-mass', load, name })}
              aria-label={words('loads.weighWarmOf', { name })}
            >
              {words('loads.weighWarm')}
            </Button>
          )}
        </div>
      )}
      <LoadReadings
        load={load}
        onCorrect={mayWork ? (corrects) => onWork({ what: corrects.what, load, name, corrects }) : undefined}
      />
    </section>
  )
}

function LastTemperature({ load }: { load: Load }) {
  const words = useWords()
  const last = load.temperatures.at(-1)
  if (last === undefined) return <span className="quiet">{words('loads.noTemperature')}</span>
  return (
    <span>
      {words('loads.lastTemperature', { value: last.typed, unit: last.unit })} <TimeText at={last.at} look="short" />{' '}
      {last.waits !== null && <StatusMark status="waiting">{words('loads.waitsForRelease')}</StatusMark>}
    </span>
  )
}
