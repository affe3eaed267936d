'use client'

import type { SecondFactor, Session, SignIn } from '@curebook/contract/session'
import { useMutation, useQueryClient, type QueryClient } from '@tanstack/react-query'
import { postJson } from '#lib/api-client.ts'
import { finishSignOut } from '#lib/pending-sign-out.ts'
import { tellPerson } from '#lib/person-channel.ts'
import { forgetLock } from '#lib/screen-lock.ts'

/** `second-factor-needed` comes back as an `ApiProblem` of that code: then the code is asked for. */
export function useSignIn() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: SignIn) => finishSignOut().then(() => postJson<Session>('/api/session', body)),
    onSuccess: (session) => begin(client, session),
  })
}

export function useSecondFactor() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: SecondFactor) => postJson<Session>('/api/session/second-factor', body),
    onSuccess: (session) => begin(client, session),
  })
}

/** Nothing fetched for whoever was here before stays; whoever proved the password finds no locked screen, and is alone here. */
function begin(client: QueryClient, { memberships }: Session): void {
  client.clear()
  forgetLock()
  tellPerson(memberships.map(({ membershipId }) => membershipId))
}
