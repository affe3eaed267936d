'use client'

import type { Design } from '@curebook/contract/designs'
import type { TrialCup } from '@curebook/contract/trials'
import { useQuery } from '@tanstack/react-query'
import dynamic from 'next/dynamic'
import { useState } from 'react'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { TimeText } from '#components/time-text.tsx'
import { mayChange } from '#features/designs/design-state.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { CupForm } from './cup-form.tsx'
import { CupRow, sharesStandAt } from './cup-row.tsx'
import { CupTable } from './cup-table.tsx'
import { TemperaturesPart } from './temperatures-part.tsx'
import { trialQueries } from './trials.queries.ts'

const BaseDialog = dynamic(() => import('./base-dialog.tsx').then(({ BaseDialog }) => BaseDialog), { ssr: false })

/** Trial-mix cups, stirred by hand: one row a cup, a stopwatch, and the cup that the series is mixed after. */
export function TrialsTab({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(trialQueries.cups(lab.id, design))
  const [using, setUsing] = useState<TrialCup>()
  const open = mayChange(design)
  const mayUse = open && lab.may('trial-cup:use')
  return (
    <Loaded query={query} what={words('trials.these')} height="24rem">
      {(view) => {
        const isBase = ({ number }: TrialCup) => number === view.base?.number
        const use = (cup: TrialCup) => (mayUse ? () => setUsing(cup) : undefined)
        const stands = mayUse && view.cups.length > 0 && view.sharesStand !== null
        return (
          <section className="stack" aria-labelledby="trials">
            <h2 id="trials">{words('trials.title')}</h2>
            <p className="quiet">{words('trials.about')}</p>
            <p>
              {view.mixTimeLimit === null
                ? words('trials.noLimit')
                : words('trials.limit', { limit: view.mixTimeLimit.words })}
            </p>
            {view.base !== null && (
              <p className="strong">
                {words('trials.baseIs', { number: view.base.number, name: view.base.by.name })}{' '}
                <TimeText at={view.base.at} look="short" />
              </p>
            )}
            {stands && <p id={sharesStandAt}>{words('trials.useNot', { reason: view.sharesStand ?? '' })}</p>}
            {open && lab.may('trial-cup:create') ? (
              <CupForm design={design} cups={view.cups} isBase={isBase} use={use} sharesStand={stands} />
            ) : view.cups.length === 0 ? (
              <EmptyState title={words('trials.none')} />
            ) : (
              <CupTable>
                {view.cups.map((cup) => (
                  <CupRow key={cup.id} cup={cup} isBase={isBase(cup)} onUse={use(cup)} sharesStand={stands} />
                ))}
              </CupTable>
            )}
            <TemperaturesPart cups={view.cups} />
            {using !== undefined && (
              <BaseDialog
                design={design}
                cup={using}
                sharesStand={view.sharesStand}
                onClose={() => setUsing(undefined)}
              />
            )}
          </section>
        )
      }}
    </Loaded>
  )
}
