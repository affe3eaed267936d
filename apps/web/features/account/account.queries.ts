'use client'

import type { MailWishes } from '@curebook/contract/mail'
import type { ChangePassword, DeviceSession, SecondFactorSetup } from '@curebook/contract/session'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { deleteJson, getJson, labPath, postJson, putJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

export const accountQueries = {
  devices: () =>
    queryOptions({
      queryKey: ['account', 'devices'],
      queryFn: ({ signal }) => getJson<readonly DeviceSession[]>('/api/account/sessions', { signal }),
      staleTime: 0,
      meta: { topics: ['session'] },
    }),
}

export const mailQueries = {
  wishes: (lab: string, membershipId: string) =>
    queryOptions({
      queryKey: [lab, 'mail', 'wishes', membershipId],
      queryFn: ({ signal }) => getJson<MailWishes>(labPath(lab, 'mail', 'wishes'), { signal }),
    }),
}

export function useSetMailWishes(lab: string, membershipId: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: MailWishes) => putJson<MailWishes>(labPath(lab, 'mail', 'wishes'), body),
    onSuccess: (stored) => client.setQueryData(mailQueries.wishes(lab, membershipId).queryKey, stored),
  })
}

export function useEndDevice() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (id: string) => deleteJson<void>(`/api/account/sessions/${encodeURIComponent(id)}`),
    onSuccess: () => client.invalidateQueries({ queryKey: ['account', 'devices'] }),
  })
}

export function useSignOutEverywhere() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: () => postJson<void>('/api/session/sign-out-everywhere'),
    onSuccess: () => {
      client.clear()
      window.location.assign('/sign-in')
    },
  })
}

export function useChangePassword() {
  return useMutation({ mutationFn: (body: ChangePassword) => postJson<void>('/api/account/password', body) })
}

export function useBeginSecondFactor() {
  return useMutation({
    mutationFn: (body: { password: string }) => postJson<SecondFactorSetup>('/api/account/second-factor', body),
  })
}

export function useConfirmSecondFactor() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: { code: string }) => postJson<void>('/api/account/second-factor/confirm', body),
    onSuccess: () => refreshTopics(client, ['session']),
  })
}

export function useEndSecondFactor() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: { password: string }) => postJson<void>('/api/account/second-factor/end', body),
    onSuccess: () => refreshTopics(client, ['session']),
  })
}
