'use client'

import type { Calibration, Instrument } from '@curebook/contract/instruments'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { DayText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { CalibrationDialog } from './calibration-dialog.tsx'

/** Calibrations of an instrument, the newest first. */
export function CalibrationPart({ instrument }: { instrument: Instrument }) {
  const words = useWords()
  const lab = useLaboratory()
  const [adding, setAdding] = useState(false)
  const add = lab.may('instrument:update') && (
    <Button onClick={() => setAdding(true)}>{words('instruments.addCalibration')}</Button>
  )
  const columns: readonly Column<Calibration>[] = [
    {
      key: 'done',
      head: words('instruments.doneOn'),
      sort: ({ doneOn }) => doneOn,
      cell: ({ doneOn }) => <DayText day={doneOn} />,
    },
    { key: 'until', head: words('instruments.validUntil'), cell: ({ validUntil }) => <DayText day={validUntil} /> },
    { key: 'certificate', head: words('instruments.certificate'), cell: ({ certificate }) => certificate },
    {
      key: 'passed',
      head: words('instruments.outcome'),
      cell: ({ passed }) => (
        <StatusMark status={passed ? 'pass' : 'fail'}>{words(`instruments.passed.${passed}`)}</StatusMark>
      ),
    },
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="calibrations">
      <div className="row row-between">
        <h2 id="calibrations">{words('instruments.calibrations')}</h2>
        {instrument.calibrations.length > 0 && add}
      </div>
      <DataTable
        caption={words('instruments.calibrations')}
        captionHidden
        columns={columns}
        rows={instrument.calibrations.toSorted((one, other) => other.doneOn.localeCompare(one.doneOn))}
        idOf={({ id }) => id}
        sortParam="calibrations"
        empty={
          <EmptyState title={words('instruments.noCalibration')} action={add}>
            {words('instruments.noCalibrationMore')}
          </EmptyState>
        }
      />
      {adding && <CalibrationDialog instrument={instrument} onClose={() => setAdding(false)} />}
    </section>
  )
}
