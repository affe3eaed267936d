'use client'

import type { TestView } from '@curebook/contract/bench'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { lazyPart } from '#components/lazy-part.tsx'
import { SaveState } from '#components/save-state.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'
import { useWords } from '#lib/words.ts'

const ObservationForm = lazyPart(() => import('./observation-form.tsx').then(({ ObservationForm: form }) => form))

/** At every step: a word on what is seen, with a photograph. What is on its way is said until it is stored. */
export function ObservePart({ view, stepKey, name }: { view: TestView; stepKey: string; name: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const { entries } = useOutbox()
  const [open, setOpen] = useState(false)
  const waiting = entries.filter(
    ({ lane, membershipId }) => lane === `${view.id}/seen` && membershipId === lab.me.membershipId,
  )
  return (
    <section className="stack stack-tight" aria-label={words('observations.title')}>
      {open ? (
        <ObservationForm view={view} stepKey={stepKey} name={name} onStored={() => setOpen(false)} />
      ) : (
        <div className="row">
          <Button onClick={() => setOpen(true)}>{words('observations.open')}</Button>
          {waiting.length > 0 && (
            <SaveState
              saving={
                waiting.some(({ state }) => state === 'refused')
                  ? { state: 'refused', reason: waiting.find(({ problem }) => problem)?.problem?.message ?? '' }
                  : { state: 'waiting', count: waiting.length }
              }
            />
          )}
        </div>
      )}
    </section>
  )
}
