'use client'

import type { Authorisation, Authorisations, CorrectAuthorisation, Grant } from '@curebook/contract/authorisations'
import type { MailState } from '@curebook/contract/mail'
import type { Invitation, Invite, Invited, Person, UpdatePerson } from '@curebook/contract/people'
import type { CutOff, SignedInDevice } from '@curebook/contract/signed-in'
import type { Client } from '@curebook/contract/projects'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { deleteJson, getJson, labPath, patchJson, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

type Page<Item> = { readonly items: readonly Item[]; readonly next: string | null }

export const peopleQueries = {
  list: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'people'],
      queryFn: ({ signal }) => getJson<readonly Person[]>(labPath(lab, 'people'), { signal }),
      meta: { topics: ['people'] },
    }),
  invitations: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'invitations'],
      queryFn: ({ signal }) => getJson<readonly Invitation[]>(labPath(lab, 'invitations'), { signal }),
      meta: { topics: ['people'] },
    }),
  /** Nothing tells of a sign-in: what stands here is asked for anew each time it is looked at. */
  signedIn: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'signed-in'],
      queryFn: ({ signal }) => getJson<readonly SignedInDevice[]>(labPath(lab, 'signed-in'), { signal }),
      staleTime: 0,
      meta: { topics: ['signed-in'] },
    }),
  mail: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'mail'],
      queryFn: ({ signal }) => getJson<MailState>(labPath(lab, 'mail'), { signal }),
      meta: { topics: ['mail'] },
    }),
  /** Clients that a person of the role client can belong to. */
  clients: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'clients'],
      queryFn: ({ signal }) => getJson<Page<Client>>(labPath(lab, 'clients'), { signal }),
      meta: { topics: ['clients'] },
    }),
}

export const authorisationQueries = {
  list: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'authorisations'],
      queryFn: ({ signal }) => getJson<Authorisations>(labPath(lab, 'authorisations'), { signal }),
      meta: { topics: ['authorisations'] },
    }),
}

export function useGrant(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: Grant) => postJson<Authorisation>(labPath(lab, 'authorisations'), body),
    onSuccess: () => refreshTopics(client, ['authorisations']),
  })
}

export function useCorrectAuthorisation(lab: string, id: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: CorrectAuthorisation) =>
      postJson<Authorisation>(labPath(lab, 'authorisations', id, 'corrections'), body),
    onSettled: () => refreshTopics(client, ['authorisations']),
  })
}

export function useInvite(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: Invite) => postJson<Invited>(labPath(lab, 'invitations'), body),
    onSuccess: () => refreshTopics(client, ['people']),
  })
}

export function useRevokeInvitation(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (id: string) => deleteJson<Invitation>(labPath(lab, 'invitations', id)),
    onSuccess: () => refreshTopics(client, ['people']),
  })
}

export function useCutOff(lab: string, sessionId: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: CutOff) => postJson<void>(labPath(lab, 'signed-in', sessionId, 'end'), body),
    // Somebody else may have been quicker.
    onSettled: () => refreshTopics(client, ['signed-in']),
  })
}

export function useUpdatePerson(lab: string, person: Pick<Person, 'id' | 'version'>) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: UpdatePerson) =>
      patchJson<Person>(labPath(lab, 'people', person.id), body, { ifMatch: person.version }),
    onSettled: () => refreshTopics(client, ['people', 'laboratory']),
  })
}
