'use client'

import type { Load } from '@curebook/contract/loads'
import Link from 'next/link'
import { Button } from '#components/button.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
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
  const lab = useLaboratory()
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
    <details open={readings.some(({ waits }) => waits !== null)}>
      <summary>{words('loads.readings', { count: readings.length })}</summary>
      <ul className="stack stack-tight">
        {readings.map((reading) => {
          const told = words('loads.reading', { name: reading.name, typed: reading.typed, unit: reading.unit })
          return (
            <li key={reading.id} className="row">
              <span className="reading">{told}</span>
              <span className="quiet">
                {reading.by.name}, <TimeText at={reading.at} look="short" />
                {reading.instrument !== null && `, ${reading.instrument.code}`}
              </span>
              {reading.leftOut && <StatusMark status="void">{words('loads.leftOut')}</StatusMark>}
              {reading.waits !== null && (
                <>
                  <StatusMark status="waiting">{words('loads.waitsForRelease')}</StatusMark>
                  <span style={{ flex: '1 1 16rem' }}>{reading.waits}</span>
                  <Link href={`/l/${lab.short}/quality`} prefetch={false}>
                    {words('loads.release')}
                  </Link>
                </>
              )}
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
