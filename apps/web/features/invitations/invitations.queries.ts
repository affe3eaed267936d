'use client'

import type { AcceptInvitation, Accepted, InvitationOffer } from '@curebook/contract/people'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { postJson } from '#lib/api-client.ts'

export const invitationQueries = {
  /** The token travels in the body: addresses end up in logs. */
  offer: (token: string) =>
    queryOptions({
      queryKey: ['invitation', token],
      queryFn: ({ signal }) => postJson<InvitationOffer>('/api/invitations/look-up', { token }, { signal }),
    }),
}

export function useAcceptInvitation() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: AcceptInvitation) => postJson<Accepted>('/api/invitations/accept', body),
    onSuccess: () => client.removeQueries({ queryKey: ['session'] }),
  })
}
