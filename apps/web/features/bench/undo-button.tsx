'use client'

import { useEffect, useRef, useState } from 'react'
import { Button } from '#components/button.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import type { Entry } from './reading-entry.ts'
import { undoableAt, undoneIds } from './undo.ts'
import type { Readings } from './use-readings.ts'

/** Takes back what was entered last, for ten seconds; then its place stays empty, so that nothing jumps under a finger. */
export function UndoButton({
  entries,
  readings,
  onUndone,
}: {
  /** Of this screen, in the order in which they were entered. */
  entries: readonly Entry[]
  readings: Readings
  onUndone?: (entry: Entry) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const [now, setNow] = useState(() => Date.now())
  const last = entries.at(-1)
  // A finger that bounces takes back once.
  const pressed = useRef<string>(undefined)
  useEffect(() => setNow(Date.now()), [last?.id])
  const undoable = undoableAt(entries, now)
  const until = undoable?.until
  useEffect(() => {
    if (until === undefined) return undefined
    const timer = setTimeout(() => setNow(Date.now()), Math.max(0, until - Date.now()) + 1)
    return () => clearTimeout(timer)
  }, [until])
  if (!lab.may('reading:withdraw') || last === undefined) return null
  if (last.undoes !== undefined)
    return undoneIds(entries).has(last.undoes) ? (
      <span role="status">{words('bench.undone', { typed: last.typed })}</span>
    ) : null
  if (last.slot === undefined) return null
  const { typed } = last
  return (
    <span style={undoable === undefined ? { visibility: 'hidden' } : undefined}>
      <Button
        size="bench"
        disabled={undoable === undefined}
        onClick={() => {
          if (undoableAt(entries, Date.now()) === undefined) return setNow(Date.now())
          if (pressed.current === last.id) return
          pressed.current = last.id
          void readings.undo(last, words('bench.undoLabel', { label: last.label })).then(() => onUndone?.(last))
        }}
      >
        {words('bench.undo', { typed })}
      </Button>
    </span>
  )
}
