'use client'

import type { Load } from '@curebook/contract/loads'
import { Button } from '#components/button.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'
import type { Corrected } from './read-load-dialog.tsx'

/** Everything read of a load as typed, the newest first; a slip is put right from here. */
export function LoadReadings({
  load,
  onCorrect,
}: {
  load: Load
  onCorrect: ((reading: Corrected) => void) | undefined
}) {
  const words = useWords()
  const readings: readonly Corrected[] = [
    ...load.temperatures.map((reading) => ({ ...reading, what: 'temperature' as const, testId: null, name: '' })),
    ...load.checks.flatMap(({ testId, label, code, weighings }) =>
      weighings.map((reading) => ({
        ...reading,
        what: 'warm-mass' as const,
        testId,
        name: words('loads.named', { label, code }),
      })),
    ),
  ].toSorted((one, other) => Date.parse(other.at) - Date.parse(one.at))
  if (readings.length === 0) return null
  return (
    <details>
      <summary>{words('loads.readings', { count: readings.length })}</summary>
      <ul className="stack stack-tight">
        {readings.map((reading) => {
          const told = words('loads.reading', { name: reading.name, typed: reading.typed, unit: reading.unit })
          return (
            <li key={reading.id} className="row">
              <span className="reading">{told}</span>
              <span className="quiet">
                {reading.by.name}, <TimeText at={reading.at} look="short" />
              </span>
              {onCorrect !== undefined && (
                <Button
                  size="small"
                  onClick={() => onCorrect(reading)}
                  aria-label={words('loads.correctNamed', { reading: told })}
                >
                  {words('loads.correct')}
                </Button>
              )}
            </li>
          )
        })}
      </ul>
    </details>
  )
}
