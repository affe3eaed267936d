'use client'

import type { Notice } from '@curebook/contract/notices'
import { useEffect, useState } from 'react'

const showEvent = 'curebook:show-notices'

/** Asks the panel of this page for what came meanwhile. */
export function askForNotices(): void {
  window.dispatchEvent(new Event(showEvent))
}

/** Of the notices that are there, those that were there when somebody last looked; what was seen goes at once. */
export function noticesShown(items: readonly Notice[], known: ReadonlySet<string> | null): readonly Notice[] {
  return known === null ? items : items.filter(({ id }) => known.has(id))
}

/**
 * What comes while one works does not push the rows below away from under a finger: the header counts it, and it shows when
 * the count is followed, or when the screen is opened anew.
 */
export function useHeldNotices(items: readonly Notice[] | undefined): readonly Notice[] {
  const [known, setKnown] = useState<ReadonlySet<string> | null>(null)
  useEffect(() => {
    if (items !== undefined && known === null) setKnown(new Set(items.map(({ id }) => id)))
  }, [items, known])
  useEffect(() => {
    const show = () => setKnown(null)
    window.addEventListener(showEvent, show)
    return () => window.removeEventListener(showEvent, show)
  }, [])
  return noticesShown(items ?? [], known)
}
