'use client'

import type { DevicePeople, PinState, SetPin, SwitchPerson, Unlock } from '@curebook/contract/device'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { tellPerson } from '#lib/person-channel.ts'
import { forgetLock } from '#lib/screen-lock.ts'

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
    mutationFn: (body: SwitchPerson) => postJson<void>(labPath(lab, 'device', 'switch'), body),
    onSuccess: (_, { membershipId }) => {
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

export function useUnlock() {
  return useMutation({ mutationFn: (body: Unlock) => postJson<void>('/api/session/unlock', body) })
}

export function useSetPin() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: SetPin) => postJson<void>('/api/account/pin', body),
    onSuccess: () => client.invalidateQueries({ queryKey: ['account', 'pin'] }),
  })
}

export function useEndPin() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: { password: string }) => postJson<void>('/api/account/pin/end', body),
    onSuccess: () => client.invalidateQueries({ queryKey: ['account', 'pin'] }),
  })
}
