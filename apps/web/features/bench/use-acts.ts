'use client'

import { useMutation } from '@tanstack/react-query'
import { labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'
import { topicsOfTest } from './bench.queries.ts'
import { sendActs, type Acts } from './send-acts.ts'
import { outcomeNow, type OutcomeNow } from './waiting-acts.ts'

/**
 * One act for many specimens, by the outbox as readings go: on the device before it is sent, in the lane of its test, with
 * the same id and time each time, so that an answer that was lost on its way makes no second act.
 */
export function useActs() {
  const lab = useLaboratory()
  const outbox = useOutbox()
  return useMutation({
    mutationFn: (acts: Acts) =>
      sendActs(outbox, acts, {
        membershipId: lab.me.membershipId,
        path: labPath(lab.id, 'step-events'),
        group: newId(),
        topicsOf: topicsOfTest,
      }),
  })
}

/** What came of acts by now, as this device learns it. */
export function useOutcomes() {
  const { stateOf, entries } = useOutbox()
  return <Told extends OutcomeNow & { readonly actId: string }>(told: readonly Told[]) =>
    told.map((one) => ({
      ...one,
      ...outcomeNow(
        one,
        stateOf(one.actId),
        entries.find(({ id }) => id === one.actId),
      ),
    }))
}
