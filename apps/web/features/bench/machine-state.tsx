'use client'

import { partsOfMachine } from '@curebook/contract/machine-parts'
import Link from 'next/link'
import { TimeText } from '#components/time-text.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { dayOf } from '#lib/laboratory-time.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import type { BenchInstrument } from './instrument-choice.ts'
import { useLaboratoryNow } from './laboratory-clock.ts'

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
      {instrument.kind === 'loaded-wheel' && <LoadToday check={instrument.loadCheck} />}
      <Link href={`/l/${lab.short}/instruments/${id}`} prefetch={false}>
        {words('bench.machine.open', { code })}
      </Link>
    </div>
  )
}

/** The load is set anew each day: today's check, or that there is none. Said, never a condition of going on. */
function LoadToday({ check }: { check: BenchInstrument['loadCheck'] }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const { zone } = useLaboratory()
  const today = dayOf(new Date(useLaboratoryNow(60_000)).toISOString(), zone)
  if (check === null || dayOf(check.checkedAt, zone) !== today)
    return (
      <p className="caution">
        {check === null
          ? words('bench.machine.neverChecked')
          : words('bench.machine.notToday', { day: format.instant(check.checkedAt, 'day') })}
      </p>
    )
  const { bounds, typed, passed } = check
  return (
    <span>
      <StatusMark status={passed ? 'pass' : 'fail'}>
        {words('bench.machine.load', {
          typed,
          nominal: format.digits(bounds.nominal),
          tolerance: format.quantity(bounds.tolerance, bounds.unit),
        })}
      </StatusMark>{' '}
      <TimeText at={check.checkedAt} look="short" />
    </span>
  )
}
