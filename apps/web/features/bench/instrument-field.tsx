'use client'

import { Select } from '#components/select.tsx'
import { useWords } from '#lib/words.ts'
import { InstrumentFault } from './instrument-fault.tsx'
import type { Choosable } from './instrument-choice.ts'

/**
 * Which instrument is used; nothing to choose where the laboratory has none of the kind. Of one out of calibration it says
 * since when, who can put it right, and where.
 */
export function InstrumentField({
  fitting,
  chosen,
  needed,
  error,
  onChoose,
}: {
  fitting: readonly Choosable[]
  chosen: Choosable | undefined
  needed: boolean
  error?: string
  onChoose: (id: string) => void
}) {
  const words = useWords()
  if (fitting.length === 0) return needed ? <p className="caution">{words('bench.instrument.none')}</p> : null
  return (
    <>
      <Select
        name="instrumentId"
        label={words(needed ? 'bench.instrument.label' : 'bench.instrument.optional')}
        error={error}
        prompt={words('bench.instrument.prompt')}
        options={fitting.map(({ id, code, name }) => ({ value: id, label: `${code}, ${name}` }))}
        value={chosen?.id ?? ''}
        onChange={(event) => onChoose(event.target.value)}
      />
      {chosen !== undefined && <InstrumentFault instrument={chosen} />}
    </>
  )
}
