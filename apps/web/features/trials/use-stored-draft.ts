'use client'

import { useEffect, useState } from 'react'
import { newId } from '#lib/new-id.ts'
import { type CupDraft, draftFrom, emptyDraft } from './cup-draft.ts'

/** The cup that is being mixed, kept on this device with its running stopwatch until it is stored. */
export function useStoredDraft(designId: string, memberId: string) {
  const storedAs = `curebook-cup-${memberId}-${designId}`
  const [draft, setDraft] = useState<CupDraft>(() => emptyDraft(newId()))
  useEffect(() => {
    const kept = draftFrom(localStorage.getItem(storedAs))
    if (kept !== undefined) setDraft(kept)
  }, [storedAs])
  const keep = (next: CupDraft) => {
    localStorage.setItem(storedAs, JSON.stringify(next))
    setDraft(next)
  }
  const clear = () => {
    localStorage.removeItem(storedAs)
    setDraft(emptyDraft(newId()))
  }
  return { draft, keep, clear }
}
