'use client'

import type { InstrumentImport } from '@curebook/contract/instrument-imports'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { importQueries } from './imports.queries.ts'
import { TakeBackDialog } from './take-back-dialog.tsx'

/** Files brought in before, newest first; each can be taken back as a whole while nothing of it was used. */
export function ImportsPart() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(importQueries.list(lab.id))
  return (
    <section className="stack" aria-labelledby="imports-title">
      <h2 id="imports-title">{words('instrumentImport.before')}</h2>
      <Loaded query={query} what={words('instrumentImport.these')} height="8rem">
        {({ items }) =>
          items.length === 0 ? (
            <EmptyState title={words('instrumentImport.none')}>{words('instrumentImport.noneMore')}</EmptyState>
          ) : (
            <ul className="plain-list stack">
              {items.map((one) => (
                <li key={one.id}>
                  <OneImport one={one} />
                </li>
              ))}
            </ul>
          )
        }
      </Loaded>
    </section>
  )
}

function OneImport({ one }: { one: InstrumentImport }) {
  const words = useWords()
  const lab = useLaboratory()
  const [open, setOpen] = useState(false)
  const { id, fileName, by, at, instruments, takenBack } = one
  return (
    <article className="panel stack stack-tight" aria-labelledby={`import-${id}`}>
      <h3 id={`import-${id}`}>{fileName}</h3>
      <p>
        {words('instrumentImport.by', { name: by.name, count: instruments.length })} <TimeText at={at} />
      </p>
      <p>{instruments.map(({ code }) => code).join(', ')}</p>
      {takenBack !== null && (
        <p className="strong">
          {words('instrumentImport.takenBack', { name: takenBack.by.name, reason: takenBack.reason })}{' '}
          <TimeText at={takenBack.at} />
        </p>
      )}
      {takenBack === null && lab.may('instrument:import') && (
        <div>
          <Button tone="danger" aria-describedby={`import-${id}`} onClick={() => setOpen(true)}>
            {words('instrumentImport.takeBack', { count: instruments.length })}
          </Button>
        </div>
      )}
      {open && <TakeBackDialog one={one} onClose={() => setOpen(false)} />}
    </article>
  )
}
