'use client'

import type { Design } from '@curebook/contract/designs'
import { compareRanges } from '@curebook/contract/design-comparison'
import type { RangeView, WhatIf } from '@curebook/contract/range'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { CheckboxGroup } from '#components/choices.tsx'
import { Loaded } from '#components/loaded.tsx'
import { ComparedPart } from '#features/compare/compared-part.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { rangeQueries } from './range.queries.ts'

/** What the range would be without chosen specimens. It is asked and forgotten, stands apart, and is not printed. */
export function WhatIfPart({ design, view }: { design: Design; view: RangeView }) {
  const words = useWords()
  const [chosen, setChosen] = useState<Readonly<Record<string, readonly string[]>>>({})
  const [asked, setAsked] = useState<readonly string[]>([])
  const ids = Object.values(chosen).flat()
  return (
    <div className="stack">
      <p>{words('range.whatIf.about')}</p>
      {view.curves
        .filter(({ points }) => points.length > 0)
        .map(({ key, label, points }) => (
          <CheckboxGroup
            key={key}
            name={`what-if-${key}`}
            label={words('range.whatIf.of', { label })}
            choices={points.map((point) => ({
              value: point.testId,
              label: words('range.specimenName', { label: point.label, code: point.code }),
            }))}
            onValues={(values) => setChosen((before) => ({ ...before, [key]: values }))}
          />
        ))}
      <div className="row">
        <Button disabled={ids.length === 0} onClick={() => setAsked(ids)}>
          {words('range.whatIf.ask', { count: ids.length })}
        </Button>
        {asked.length > 0 && (
          <Button tone="quiet" onClick={() => setAsked([])}>
            {words('range.whatIf.forget')}
          </Button>
        )}
      </div>
      {asked.length > 0 && <Answer design={design} view={view} asked={asked} />}
    </div>
  )
}

function Answer({ design, view, asked }: { design: Design; view: RangeView; asked: readonly string[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(rangeQueries.whatIf(lab.id, design, asked))
  return (
    <Loaded query={query} what={words('range.whatIf.answer')} height="16rem">
      {(answer) => <Answered view={view} answer={answer} />}
    </Loaded>
  )
}

function Answered({ view, answer: { without, range } }: { view: RangeView; answer: WhatIf }) {
  const words = useWords()
  const parts = compareRanges(view, range)
  const isSame = parts.every(({ rows }) => rows.every(({ difference }) => difference === 'same'))
  const heads = { first: words('range.whatIf.stands'), second: words('range.whatIf.without') }
  const names = without.map(({ label, code }) => words('range.specimenName', { label, code })).join(', ')
  return (
    <section className="caution stack stack-tight" aria-labelledby="what-if-answer">
      <h3 id="what-if-answer">{words('range.whatIf.answerOf', { names })}</h3>
      <p className="strong">{words('range.whatIf.notRecorded')}</p>
      <p>{range.sentence}</p>
      {isSame && <p>{words('range.whatIf.same')}</p>}
      {parts.map((part) => (
        <ComparedPart key={part.key} part={part} heads={heads} onlyDifferent />
      ))}
    </section>
  )
}
