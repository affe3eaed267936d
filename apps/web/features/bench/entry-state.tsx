'use client'

import { Button } from '#components/button.tsx'
import { SaveState } from '#components/save-state.tsx'
import { useWords } from '#lib/words.ts'
import { savingOfEntries, type Entry } from './reading-entry.ts'
import type { Readings } from './use-readings.ts'

/** Where an entry stands on its way; a refused one can be sent again or taken out. */
export function EntryState({ entry, readings }: { entry: Entry; readings: Readings }) {
  const words = useWords()
  return (
    <span className="row">
      <SaveState saving={savingOfEntries([entry], readings.online)} />
      {entry.state === 'refused' && (
        <>
          <Button onClick={() => void readings.sendAgain(entry.id)}>{words('bench.sendAgain')}</Button>
          <Button tone="quiet" onClick={() => void readings.forget(entry.id)}>
            {words('bench.takeOut', { typed: entry.typed })}
          </Button>
        </>
      )}
    </span>
  )
}
