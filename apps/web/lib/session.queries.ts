'use client'

import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import type { Session } from '@curebook/contract/session'
import type { LaboratoryView } from '@curebook/contract/laboratory'
import { getJson, labPath } from './api-client.ts'
import { finishSignOut, signOutHere } from './pending-sign-out.ts'
import { tellPerson } from './person-channel.ts'

export const sessionQueries = {
  /** Who is signed in, and where they work. Signed out: an `ApiProblem` of status 401. */
  current: () =>
    queryOptions({
      queryKey: ['session'],
      queryFn: async ({ signal }) => {
        await finishSignOut()
        return getJson<Session>('/api/session', { signal })
      },
      meta: { topics: ['session'] },
    }),
  /** A laboratory as the signed-in person sees it: its settings, who they are there, what they may do. */
  laboratory: (labId: string) =>
    queryOptions({
      queryKey: [labId, 'laboratory'],
      queryFn: ({ signal }) => getJson<LaboratoryView>(labPath(labId), { signal }),
      meta: { topics: ['laboratory', 'people'] },
    }),
}

/** Ends this session here. What waits in the outbox stays on the device for its person. */
export function useSignOut() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: () => signOutHere(),
    onSuccess: async () => {
      client.clear()
      // The other tabs of this browser show, and would send, as who has just left.
      tellPerson([])
      const [{ forgetPins }, { forgetOnTablet }] = await Promise.all([
        import('./tablet/pin-here.ts'),
        import('./tablet/tablet-worker.ts'),
      ])
      forgetPins(localStorage)
      await forgetOnTablet()
      window.location.assign('/sign-in')
    },
  })
}
