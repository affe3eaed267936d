'use client'

import type { Rack } from '@curebook/contract/bench'
import type { ReadingDeclaration } from '@curebook/trade/procedure/declaration'
import { useMemo, useState } from 'react'
import { keepSeen, nextExpected, type RackRow } from './rack-order.ts'
import type { Entry } from './reading-entry.ts'
import { undoneIds } from './undo.ts'
import { entryFor, useReadings } from './use-readings.ts'

export type WeighedRow = RackRow & { readonly entry: Entry | undefined; readonly weighed: string | undefined }

/** The rack as weighed so far: what the record holds, what is on its way, and which one comes next. */
export function useRack(rack: Rack, stepKey: string, declaration: ReadingDeclaration) {
  const readings = useReadings()
  const [seen, setSeen] = useState<readonly RackRow[]>(rack.rows)
  const kept = useMemo(() => keepSeen(seen, rack.rows), [seen, rack.rows])
  if (kept.length > seen.length) setSeen(kept)
  const undone = undoneIds(readings.entries)
  const rows: readonly WeighedRow[] = kept.map((shown) => {
    // Taken back here: open again, before the server says so.
    const row = shown.reading !== null && undone.has(shown.reading.id) ? { ...shown, reading: null } : shown
    const entry = entryFor(readings.entries, row.testId, { stepKey, key: declaration.key, repeat: 1 }, row.reading?.id)
    return { ...row, entry, weighed: entry?.typed ?? row.reading?.typed }
  })
  const isDone = ({ weighed }: WeighedRow) => weighed !== undefined
  return { rows, readings, isDone, expectedAfter: (testId: string | undefined) => nextExpected(rows, isDone, testId) }
}
