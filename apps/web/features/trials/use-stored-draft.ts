'use client'

import { useEffect, useState } from 'react'
import { newId } from '#lib/new-id.ts'
import type { CupShare } from '@curebook/contract/trials'
import { type CupDraft, draftFrom, nextDraft } from './cup-draft.ts'

type Recipe = Readonly<Record<CupShare, string>> | undefined

/**
 * The cup that is being mixed, kept on this device with its running stopwatch until it is stored. It begins with the recipe
 * of the cup before.
 */
export function useStoredDraft(designId: string, memberId: string, last: Recipe) {
  const storedAs = `curebook-cup-${memberId}-${designId}`
  const [draft, setDraft] = useState<CupDraft>(() => nextDraft(newId(), last))
  useEffect(() => {
    const kept = draftFrom(localStorage.getItem(storedAs))
    if (kept !== undefined) setDraft(kept)
  }, [storedAs])
  const keep = (next: CupDraft) => {
    localStorage.setItem(storedAs, JSON.stringify(next))
    setDraft(next)
  }
  const clear = (before: Recipe) => {
    localStorage.removeItem(storedAs)
    setDraft(nextDraft(newId(), before))
  }
  return { draft, keep, clear }
}
