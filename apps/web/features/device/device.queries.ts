'use client'

import type { DevicePeople, PinState, SetPin, SwitchPerson, Unlock } from '@curebook/contract/device'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { finishSignOut } from '#lib/pending-sign-out.ts'
import { tellPerson } from '#lib/person-channel.ts'
import { forgetLock } from '#lib/screen-lock.ts'
import { forgetPins, rememberPin } from '#lib/tablet/pin-here.ts'
import { forgetOnTablet } from '#lib/tablet/tablet-worker.ts'
import { unlock } from './unlock.ts'

export const deviceQueries = {
  people: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'device', 'people'],
      queryFn: ({ signal }) => getJson<DevicePeople>(labPath(lab, 'device', 'people'), { signal }),
      staleTime: 0,
      meta: { topics: ['session'] },
    }),
  pin: () =>
    queryOptions({
      queryKey: ['account', 'pin'],
      queryFn: ({ signal }) => getJson<PinState>('/api/account/pin', { signal }),
      staleTime: 0,
      meta: { topics: ['session'] },
    }),
}

/** Another person has the device. What waits in the outbox stays on it for whoever entered it. */
export function useSwitchPerson(lab: string) {
  return useMutation({
    mutationFn: (body: SwitchPerson) =>
      finishSignOut().then(() => postJson<void>(labPath(lab, 'device', 'switch'), body)),
    onSuccess: async (_, { membershipId, pin }) => {
      await rememberPin(localStorage, membershipId, pin).catch(() => undefined)
      await forgetOnTablet()
      tellPerson([membershipId])
      beginAnew()
    },
  })
}

/** The page as the other person sees it: nothing that was fetched for the one before stays in it. */
export function beginAnew(): void {
  forgetLock()
  window.location.reload()
}

/** Opens the locked screen. Without a network a PIN is judged by what this device keeps of it. */
export function useUnlock(membershipId: string) {
  return useMutation({
    mutationFn: (body: Unlock) => unlock(localStorage, membershipId, body),
  })
}

export function useSetPin() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: SetPin) => postJson<void>('/api/account/pin', body),
    onSuccess: () => {
      forgetPins(localStorage)
      return client.invalidateQueries({ queryKey: ['account', 'pin'] })
    },
  })
}

export function useEndPin() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: { password: string }) => postJson<void>('/api/account/pin/end', body),
    onSuccess: () => {
      forgetPins(localStorage)
      return client.invalidateQueries({ queryKey: ['account', 'pin'] })
    },
  })
}
