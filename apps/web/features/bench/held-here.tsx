'use client'

import type { BenchQueue } from '@curebook/contract/bench'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { canHold } from '#lib/tablet/tablet-worker.ts'
import { useWords } from '#lib/words.ts'
import { useKeptWork } from './use-kept-work.ts'

/** How much of this person's work is on the device, so that it goes on without a network. */
export function HeldHere({ queue }: { queue: BenchQueue | undefined }) {
  const words = useWords()
  const lab = useLaboratory()
  const held = useKeptWork(queue)
  if (!canHold() && lab.may('reading:create'))
    return <p className="small quiet no-print">{words('bench.heldNowhere')}</p>
  if (held === undefined) return null
  return <p className="small quiet no-print">{words('bench.heldHere', held)}</p>
}
