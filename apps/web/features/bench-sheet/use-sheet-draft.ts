'use client'

import { useMemo } from 'react'
import { openSheetDraft } from './sheet-draft.ts'

/** What this person typed on a sheet and did not store yet, in this tab, over a reload. */
export function useSheetDraft(memberId: string, sheet: string) {
  return useMemo(() => openSheetDraft(sessionStorage, memberId, sheet), [memberId, sheet])
}
