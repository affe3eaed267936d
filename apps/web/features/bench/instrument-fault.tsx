'use client'

import Link from 'next/link'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import type { Choosable } from './instrument-choice.ts'

/** Of an instrument out of calibration: since when, what that means, who can put it right, and the way there. */
export function InstrumentFault({ instrument: { id, code, fault } }: { instrument: Omit<Choosable, 'name'> }) {
  const words = useWords()
  const lab = useLaboratory()
  if (fault === null) return null
  return (
    <p className="caution" role="note">
      {words('bench.instrument.fault', { fault })}{' '}
      <Link href={`/l/${lab.short}/instruments/${id}`} prefetch={false}>
        {words('bench.machine.open', { code })}
      </Link>
    </p>
  )
}
