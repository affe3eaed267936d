'use client'

import type { SecondFactor, Session, SignIn } from '@curebook/contract/session'
import { useMutation, useQueryClient } from '@tanstack/react-query'
import { postJson } from '#lib/api-client.ts'

/** `second-factor-needed` comes back as an `ApiProblem` of that code: then the code is asked for. */
export function useSignIn() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: SignIn) => postJson<Session>('/api/session', body),
    onSuccess: () => client.clear(),
  })
}

export function useSecondFactor() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: SecondFactor) => postJson<Session>('/api/session/second-factor', body),
    onSuccess: () => client.clear(),
  })
}
