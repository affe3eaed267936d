'use client'

import { useMemo } from 'react'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'
import { waitingActs } from './waiting-acts.ts'

/** Starts and ends of this person that wait on this device: not those whose answer is looked for at this moment. */
export function useWaitingActs() {
  const lab = useLaboratory()
  const { entries, awaited, stateOf } = useOutbox()
  return useMemo(
    () => waitingActs(entries, lab.me.membershipId).filter(({ id }) => !awaited.has(id) && stateOf(id) !== 'stored'),
    [entries, awaited, stateOf, lab.me.membershipId],
  )
}
