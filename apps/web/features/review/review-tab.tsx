'use client'

import type { Design } from '@curebook/contract/designs'
import type { RangeView } from '@curebook/contract/range'
import type { Review } from '@curebook/contract/review'
import { useQuery } from '@tanstack/react-query'
import { CalculationLinks } from '#components/calculation-links.ts'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { GradationPart } from '#features/range/gradation-part.tsx'
import { PanelTable } from '#features/range/panel-table.tsx'
import { RangeBlock } from '#features/range/range-block.tsx'
import { rangeQueries } from '#features/range/range.queries.ts'
import { useResultLinks } from '#features/range/result-links.ts'
import { RecommendationFacts } from '#features/range/recommendation-facts.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { ReviewPoints } from './review-points.tsx'
import { ReviewSummary } from './review-summary.tsx'
import { reviewQueries } from './review.queries.ts'
import { SinceSigned } from './since-signed.tsx'
import { Signatures } from './signatures.tsx'

/** First the whole of it in short with the decision beside; below, each part of it in full. */
export function ReviewTab({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(reviewQueries.review(lab.id, design))
  return (
    <Loaded query={query} what={words('review.this')} height="40rem">
      {(review) => <ReviewPage design={design} review={review} />}
    </Loaded>
  )
}

function ReviewPage({ design, review }: { design: Design; review: Review }) {
  const words = useWords()
  return (
    <div className="stack stack-wide">
      <ReviewSummary design={design} review={review} />
      {review.sinceSigned !== null && <SinceSigned since={review.sinceSigned} />}
      <section className="stack stack-tight" aria-labelledby="work">
        <h2 id="work">{words('review.work')}</h2>
        <p>
          {review.doneBy.length === 0
            ? words('review.doneByNobody')
            : words('review.doneBy', { names: review.doneBy.map(({ name }) => name).join(', ') })}
        </p>
        {review.parts.length > 0 && (
          <details>
            <summary>{words('review.parts')}</summary>
            <dl className="facts">
              {review.parts.map(({ name, part }) => (
                <div key={name}>
                  <dt>{name}</dt>
                  <dd>{part}</dd>
                </div>
              ))}
              {review.signatures.map(({ id, name, meaning }) => (
                <div key={id}>
                  <dt>{name}</dt>
                  <dd>{words(`review.part.${meaning}`)}</dd>
                </div>
              ))}
            </dl>
          </details>
        )}
      </section>
      <section className="stack" aria-labelledby="decisive">
        <h2 id="decisive">{words('review.decisive')}</h2>
        {review.recommendation === null ? (
          <EmptyState title={words('review.noRecommendation')} />
        ) : (
          <RecommendationFacts recommendation={review.recommendation} />
        )}
        <Numbers design={design} />
      </section>
      <ReviewPoints design={design} review={review} />
      <Signatures review={review} />
    </div>
  )
}

function Numbers({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(rangeQueries.range(lab.id, design))
  return (
    <Loaded query={query} what={words('range.these')} height="20rem">
      {(view) => <NumbersOf view={view} />}
    </Loaded>
  )
}

function NumbersOf({ view }: { view: RangeView }) {
  const words = useWords()
  return (
    <CalculationLinks value={useResultLinks(view.curves)}>
      <div className="stack">
        <RangeBlock view={view} brief />
        <section className="stack stack-tight" aria-labelledby="review-panel">
          <h2 id="review-panel">{words('range.panel')}</h2>
          <PanelTable rows={view.panel} overall={view.overall} />
        </section>
        {view.gradation !== null && <GradationPart gradation={view.gradation} check={view.gradationCheck} />}
      </div>
    </CalculationLinks>
  )
}
