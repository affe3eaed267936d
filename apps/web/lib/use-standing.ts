'use client'

import { useState } from 'react'
import { ApiProblem } from './api-problem.ts'
import { newId } from './new-id.ts'

/**
 * The id of what a form enters, and what stood when it was opened: somebody else's value behind it is not replaced unseen, and
 * pressing again after a lost answer sends the very same act. A refusal that shows what stands now (null: nothing any more)
 * puts that in its place under another id, so that the next press replaces what was told.
 */
export function useStanding<T extends { readonly id: string }>(
  live: T | null,
  refused: unknown,
): { readonly id: string; readonly standing: T | null } {
  const [act, setAct] = useState(() => ({ id: newId(), standing: live }))
  const told = toldStanding<T>(refused)
  if (told === undefined || told?.id === act.standing?.id) return act
  const next = { id: newId(), standing: told }
  setAct(next)
  return next
}

/** What stands by a refusal; undefined where it tells nothing of that. */
export function toldStanding<T extends { readonly id: string }>(refused: unknown): T | null | undefined {
  if (!(refused instanceof ApiProblem) || refused.code !== 'conflict' || !('stored' in refused.extra)) return undefined
  return refused.extra.stored as T | null
}
