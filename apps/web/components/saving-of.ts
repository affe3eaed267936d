'use client'

import type { UseMutationResult } from '@tanstack/react-query'
import type { Saving } from './save-state.tsx'

/** The save state of a mutation. */
export function savingOf(
  mutation: Pick<UseMutationResult<unknown, Error, never>, 'status' | 'error' | 'submittedAt'>,
  savedAt?: number,
): Saving {
  if (mutation.status === 'pending') return { state: 'saving' }
  if (mutation.status === 'error') return { state: 'refused', reason: mutation.error?.message ?? '' }
  if (mutation.status === 'success')
    return { state: 'saved', at: new Date(savedAt ?? mutation.submittedAt).toISOString() }
  return { state: 'idle' }
}
