'use client'

import type { Instrument } from '@curebook/contract/instruments'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { DayText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'
import { calibrationState, latestCalibration } from './instrument-facts.ts'

const marks = {
  'in-service': 'in-service',
  none: 'no-limit',
  due: 'closing',
  failed: 'fail',
  out: 'out',
} as const satisfies Record<ReturnType<typeof calibrationState>, Status>

/** Whether an instrument may be used, and until when its calibration holds. */
export function InstrumentState({ instrument }: { instrument: Instrument }) {
  const words = useWords()
  const state = calibrationState(instrument)
  const latest = latestCalibration(instrument.calibrations)
  return (
    <span className="row" style={{ gap: 'var(--gap-2)' }}>
      <StatusMark status={marks[state]}>{words(`instruments.state.${state}`)}</StatusMark>
      {latest?.passed === true && (
        <span className="nowrap">
          {words('instruments.until')} <DayText day={latest.validUntil} />
        </span>
      )}
    </span>
  )
}
