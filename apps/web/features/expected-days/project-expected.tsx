'use client'

import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Loaded } from '#components/loaded.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { expectedDayQueries } from './expected-days.queries.ts'
import { ExpectedText } from './expected-text.tsx'
import { SetDayDialog } from './set-day-dialog.tsx'

/** When the client is told that the report is expected, for the laboratory to set and to change. */
export function ProjectExpected({ projectId }: { projectId: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(expectedDayQueries.ofProject(lab.id, projectId))
  const [setting, setSetting] = useState(false)
  return (
    <section className="stack stack-tight" aria-labelledby="expected">
      <h2 id="expected">{words('expected.title')}</h2>
      <Loaded query={query} what={words('expected.this')} height="4rem">
        {({ items }) => (
          <>
            {items.length === 0 ? <p className="quiet">{words('expected.none')}</p> : <ExpectedText days={items} />}
            {lab.may('project:expect') && (
              <div className="row no-print">
                <Button size="small" onClick={() => setSetting(true)}>
                  {words(items.length === 0 ? 'expected.set' : 'expected.change')}
                </Button>
              </div>
            )}
            {setting && <SetDayDialog projectId={projectId} stands={items[0]} onClose={() => setSetting(false)} />}
          </>
        )}
      </Loaded>
    </section>
  )
}
