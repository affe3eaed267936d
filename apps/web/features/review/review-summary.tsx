'use client'

import type { Design } from '@curebook/contract/designs'
import type { Review } from '@curebook/contract/review'
import { useQuery } from '@tanstack/react-query'
import { Icon } from '#components/icon.tsx'
import { Loaded } from '#components/loaded.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { rangeQueries } from '#features/range/range.queries.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { AfterApproval } from './after-approval.tsx'
import { DecisiveTable } from './decisive-table.tsx'
import { inOrder, openPoints } from './point-order.ts'
import { ReviewActs } from './review-acts.tsx'
import styles from './review.module.css'

/** How many open points stand by name before the decision; the rest is counted. */
const named = 3

/** Without scrolling: what is asked, the decisive numbers, what is missing or out, and the decision beside them. */
export function ReviewSummary({ design, review }: { design: Design; review: Review }) {
  const words = useWords()
  const lab = useLaboratory()
  const range = useQuery(rangeQueries.range(lab.id, design))
  return (
    <div className={styles.summary}>
      <section className="stack stack-tight" aria-labelledby="asked">
        <h2 id="asked">{words('review.asked')}</h2>
        <p>{words(`review.asks.${review.state}`, { revision: review.revision, design: design.name })}</p>
        <Recommended review={review} />
        <Loaded query={range} what={words('range.these')} height="12rem">
          {(view) => <DecisiveTable view={view} />}
        </Loaded>
      </section>
      <div className="stack">
        <MissingOrOut review={review} />
        {review.state === 'approved' ? (
          <AfterApproval design={design} review={review} />
        ) : (
          <ReviewActs design={design} review={review} />
        )}
      </div>
    </div>
  )
}

function Recommended({ review: { recommendation } }: { review: Review }) {
  const words = useWords()
  if (recommendation === null) return <p className="strong">{words('review.noRecommendation')}</p>
  return (
    <p className="strong">
      {words('review.recommended')} <QuantityText digits={recommendation.emulsionPercent} unit="%" />{' '}
      {words('range.emulsionWord')} (<QuantityText digits={recommendation.residualPercent} unit="%" decimals={3} />{' '}
      {words('range.residualWord')} ± <QuantityText digits={recommendation.toleranceResidualPercent} unit="%" />)
    </p>
  )
}

function MissingOrOut({ review: { points } }: { review: Review }) {
  const words = useWords()
  const counts = openPoints(points)
  const open = inOrder(points).filter(({ blocking, acknowledged }) => blocking || acknowledged === null)
  const more = open.length - named
  return (
    <section className="stack stack-tight" aria-labelledby="missing">
      <h2 id="missing">{words('review.missing')}</h2>
      <p>{points.length === 0 ? words('review.noPoints') : words('review.pointCounts', counts)}</p>
      {open.length > 0 && (
        <ul className={`plain-list ${styles.short}`}>
          {open.slice(0, named).map(({ key, sentence, blocking }) => (
            <li key={key}>
              <Icon name={blocking ? 'cross' : 'ring'} />
              <span>
                {blocking && <strong>{words('review.blocks')}: </strong>}
                {sentence}
              </span>
            </li>
          ))}
        </ul>
      )}
      <p className="no-print">
        <a href="#points">{more > 0 ? words('review.toMorePoints', { count: more }) : words('review.toPoints')}</a>
      </p>
    </section>
  )
}
