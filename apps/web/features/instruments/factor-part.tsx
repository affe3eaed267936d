'use client'

import type { Instrument, InstrumentFactor } from '@curebook/contract/instruments'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { Icon } from '#components/icon.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { DayText, TimeText } from '#components/time-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { FactorDialog } from './factor-dialog.tsx'
import { factorsByUnit } from './instrument-facts.ts'

type Unit = 'g/m²' | 'g/ft²'
type Editing = { readonly unit: Unit; readonly replaces: InstrumentFactor | undefined }

/** The machine's factor, one for each unit as published, dated, with what it replaced and why. */
export function FactorPart({ instrument, factorKey }: { instrument: Instrument; factorKey: 'area' | 'frame' }) {
  const words = useWords()
  const lab = useLaboratory()
  const [editing, setEditing] = useState<Editing>()
  const groups = factorsByUnit(instrument.factors)
  const earlier = groups.flatMap((group) => group.earlier)
  return (
    <section className="stack" aria-labelledby="factors">
      <h2 id="factors">{words(`instruments.factor.${factorKey}`)}</h2>
      <p className="quiet prose">{words(`instruments.factorAbout.${factorKey}`)}</p>
      <div className="columns">
        {groups.map(({ unit, current }) => (
          <article key={unit} className="panel stack" aria-label={words('instruments.factorIn', { unit })}>
            <h3>{words('instruments.factorIn', { unit })}</h3>
            {current === undefined ? <p>{words('instruments.noFactor', { unit })}</p> : <Current factor={current} />}
            {lab.may('instrument:update') && (
              <div>
                <Button onClick={() => setEditing({ unit, replaces: current })}>
                  {words(current === undefined ? 'instruments.enterFactor' : 'instruments.replaceFactor', { unit })}
                </Button>
              </div>
            )}
          </article>
        ))}
      </div>
      {earlier.length > 0 && <Earlier rows={earlier} />}
      {editing !== undefined && (
        <FactorDialog
          instrument={instrument}
          factorKey={factorKey}
          unit={editing.unit}
          replaces={editing.replaces}
          onClose={() => setEditing(undefined)}
        />
      )}
    </section>
  )
}

function Current({ factor }: { factor: InstrumentFactor }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  return (
    <>
      <p className="reading" style={{ fontSize: 'var(--size-heading)' }}>
        {format.digits(factor.value)} <span style={{ fontSize: 'var(--size-body)' }}>{factor.unit}</span>
      </p>
      {factor.warnings.map((warning) => (
        <p key={warning} className="caution">
          <Icon name="warning" /> {warning}
        </p>
      ))}
      <dl className="facts">
        <div>
          <dt>{words('instruments.since')}</dt>
          <dd>
            <DayText day={factor.effectiveFrom} />
          </dd>
        </div>
        <div>
          <dt>{words('instruments.edition')}</dt>
          <dd>{factor.edition}</dd>
        </div>
        <div>
          <dt>{words('instruments.measuredArea')}</dt>
          <dd>
            {factor.measuredAreaCm2 === null ? (
              words('instruments.notMeasured')
            ) : (
              <QuantityText digits={factor.measuredAreaCm2} unit="cm²" />
            )}
          </dd>
        </div>
        <div>
          <dt>{words('instruments.enteredBy')}</dt>
          <dd>
            {factor.by.name}, <TimeText at={factor.at} look="day" />
          </dd>
        </div>
        {factor.reason !== null && (
          <div>
            <dt>{words('instruments.reason')}</dt>
            <dd>{factor.reason}</dd>
          </div>
        )}
      </dl>
    </>
  )
}

/** What held before: a result keeps the factor with which it was computed. */
function Earlier({ rows }: { rows: readonly InstrumentFactor[] }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const columns: readonly Column<InstrumentFactor>[] = [
    {
      key: 'value',
      head: words('instruments.factorHead'),
      cell: ({ value, unit }) => format.quantity(value, unit),
    },
    { key: 'since', head: words('instruments.since'), cell: ({ effectiveFrom }) => <DayText day={effectiveFrom} /> },
    { key: 'edition', head: words('instruments.edition'), cell: ({ edition }) => edition },
    {
      key: 'area',
      head: words('instruments.measuredArea'),
      unit: 'cm²',
      number: true,
      cell: ({ measuredAreaCm2 }) => (measuredAreaCm2 === null ? '' : format.digits(measuredAreaCm2)),
    },
    {
      key: 'by',
      head: words('instruments.enteredBy'),
      cell: ({ by, at }) => (
        <>
          {by.name}, <TimeText at={at} look="day" />
        </>
      ),
    },
    { key: 'reason', head: words('instruments.reason'), cell: ({ reason }) => reason },
  ]
  return (
    <DataTable
      caption={words('instruments.earlierFactors')}
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      sortParam="earlier"
      empty={null}
    />
  )
}
