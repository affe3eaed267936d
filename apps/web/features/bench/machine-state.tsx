'use client'

import { partsOfMachine } from '@curebook/contract/machine-parts'
import Link from 'next/link'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import type { BenchInstrument } from './instrument-choice.ts'

/** What is on the machine that the run is made on, before the run is confirmed; changed on its page. */
export function MachineState({ instrument }: { instrument: BenchInstrument | undefined }) {
  const words = useWords()
  const lab = useLaboratory()
  if (instrument === undefined || !(instrument.kind in partsOfMachine)) return null
  const { id, code, parts } = instrument
  return (
    <div className="row" role="group" aria-label={words('bench.machine.on', { code })}>
      {parts.length === 0 && <span className="quiet">{words('bench.machine.noPart')}</span>}
      {parts.map(({ kind, lot, fittedAt }) => (
        <span key={kind}>
          <strong>{words(`bench.part.${kind}`, { lot })}</strong>, {words('bench.machine.fitted')}{' '}
          <TimeText at={fittedAt} look="short" />
        </span>
      ))}
      <Link href={`/l/${lab.short}/instruments/${id}`} prefetch={false}>
        {words('bench.machine.open', { code })}
      </Link>
    </div>
  )
}
