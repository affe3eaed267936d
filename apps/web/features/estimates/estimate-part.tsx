'use client'

import type { Design } from '@curebook/contract/designs'
import type { Estimate, Estimates } from '@curebook/contract/estimates'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Loaded } from '#components/loaded.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { ShowCalculation } from '#features/range/show-calculation.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { asksTheSame, estimateRows, questionOf } from './estimate-form.ts'
import { estimateQueries, type EstimateQuestion } from './estimates.queries.ts'

/** What a series may begin with, out of gradation, gravity and absorption: a calculation, never a result. */
export function EstimatePart({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const [asked, setAsked] = useState<EstimateQuestion>({})
  const plain = useQuery(estimateQueries.of(lab.id, design, {}))
  const answered = useQuery(estimateQueries.of(lab.id, design, asked))
  // The last question that was answered: its answer stands while another one is asked, and after one that was refused.
  const [stood, setStood] = useState(asked)
  const standing = useQuery(estimateQueries.of(lab.id, design, stood))
  if (answered.data !== undefined && stood !== asked) setStood(asked)
  function ask(question: EstimateQuestion) {
    // The same again after a lost answer must be asked again.
    if (asksTheSame(question, asked)) void answered.refetch()
    else setAsked(question)
  }
  return (
    <section className="stack stack-tight no-print" aria-labelledby="estimate">
      <h2 id="estimate">{words('estimates.title')}</h2>
      <p className="quiet">{words('estimates.about')}</p>
      <Loaded query={plain} what={words('estimates.these')} height="16rem">
        {(view) =>
          view.gradation === null ? (
            <NoGradation design={design} />
          ) : (
            <>
              <EstimateForm busy={answered.isFetching} error={answered.error} onAsk={ask} />
              <EstimateFor
                question={standing.data === undefined ? {} : stood}
                other={stood === asked ? 'none' : answered.isError ? 'refused' : 'asking'}
              />
              <EstimateList view={standing.data ?? view} />
            </>
          )
        }
      </Loaded>
    </section>
  )
}

/** Which values the estimates shown are for; `other` is what becomes of a question that was typed after them. */
export function EstimateFor({ question, other }: { question: EstimateQuestion; other: 'none' | 'asking' | 'refused' }) {
  const words = useWords()
  const values = estimateRows
    .filter(({ field }) => question[field] !== undefined)
    .map(({ field }) => `${words(`estimates.field.${field}`)}: ${question[field]}`)
    .join('; ')
  return (
    <p className="small" role="status">
      {values === '' ? words('estimates.forNothing') : words('estimates.for', { values })}
      {other === 'asking' && ` ${words('estimates.asking')}`}
      {other === 'refused' && ` ${words('estimates.notAnswered')}`}
    </p>
  )
}

function NoGradation({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  return (
    <EmptyState
      title={words('estimates.noGradation')}
      action={
        <Link href={`/l/${lab.short}/designs/${design.id}?tab=results`} prefetch={false}>
          {words('estimates.toGradation')}
        </Link>
      }
    >
      {words('estimates.noGradationMore')}
    </EmptyState>
  )
}

function EstimateForm({
  busy,
  error,
  onAsk,
}: {
  busy: boolean
  error: unknown
  onAsk: (question: EstimateQuestion) => void
}) {
  const words = useWords()
  const errors = fieldErrors(error)
  function ask(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    onAsk(questionOf(new FormData(event.currentTarget)))
  }
  return (
    <form className="stack stack-tight" noValidate onSubmit={ask} aria-busy={busy}>
      <FormErrors errors={errors} />
      {estimateRows.map(({ field, unit }) => (
        <MeasureField
          key={field}
          name={field}
          label={words(`estimates.field.${field}`)}
          hint={words(`estimates.hint.${field}`)}
          quantity={words(`estimates.field.${field}`)}
          unit={unit}
          optional
          error={errors[field]}
        />
      ))}
      <div className="row">
        <Button type="submit" busy={busy}>
          {words('estimates.ask')}
        </Button>
      </div>
    </form>
  )
}

/** Each estimate by itself: its contents with their working, or why there are none; source, certainty and cautions. */
export function EstimateList({ view }: { view: Estimates }) {
  return (
    <div className="stack">
      {view.estimates.map((estimate) => (
        <EstimateBlock key={estimate.key} estimate={estimate} />
      ))}
    </div>
  )
}

function EstimateBlock({ estimate }: { estimate: Estimate }) {
  const words = useWords()
  const { key, name, contents, refusal, remarks, source, certainty } = estimate
  return (
    <section className="stack stack-tight" aria-labelledby={`estimate-${key}`}>
      <h3 id={`estimate-${key}`}>{name}</h3>
      {refusal !== null && <StatusMark status="open">{refusal.text}</StatusMark>}
      {contents.map((content) => (
        <p key={content.key} className="row">
          <span>{words(`estimates.content.${content.key}`)}</span>
          <QuantityText digits={content.value} unit={content.unit} decimals={content.displayDecimals} />
          <ShowCalculation
            title={words('estimates.working', { content: words(`estimates.content.${content.key}`), name })}
            calculation={content.calculation}
            decimals={content.displayDecimals}
          />
        </p>
      ))}
      <p className="small">
        {words('estimates.source', { source })} {words(`estimates.certainty.${certainty.replaceAll(' ', '-')}`)}
      </p>
      {remarks.length > 0 && (
        <ul className="small quiet">
          {remarks.map((remark) => (
            <li key={remark}>{remark}</li>
          ))}
        </ul>
      )}
    </section>
  )
}
