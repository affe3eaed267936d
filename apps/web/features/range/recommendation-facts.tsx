'use client'

import type { Recommendation } from '@curebook/contract/recommendations'
import { QuantityText } from '#components/quantity-text.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import styles from './range.module.css'

/** A recommendation as it stands: the content, what may vary, why, and by whom. */
export function RecommendationFacts({ recommendation }: { recommendation: Recommendation }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const span = ({ from, to }: { from: string; to: string }) =>
    words('range.spanOfAggregate', { from: digits(from), to: digits(to) })
  return (
    <div className="panel stack stack-tight">
      <p className={styles.figure}>
        <QuantityText digits={recommendation.emulsionPercent} unit="%" />{' '}
        <span className={styles.figureWord}>{words('range.emulsionWord')}</span>
      </p>
      <p>
        <QuantityText digits={recommendation.residualPercent} unit="%" decimals={3} /> {words('range.residualWord')}{' '}
        <span className="nowrap">
          ± <QuantityText digits={recommendation.toleranceResidualPercent} unit="%" />
        </span>
      </p>
      <dl className="facts">
        {(['water', 'filler', 'additive'] as const).map((key) => (
          <div key={key}>
            <dt>{words(`range.share.${key}`)}</dt>
            <dd>{span(recommendation[key])}</dd>
          </div>
        ))}
      </dl>
      <p>{recommendation.reason}</p>
      <p className="quiet small">
        {words('range.recommendedBy', { name: recommendation.by.name })} <TimeText at={recommendation.at} />
      </p>
    </div>
  )
}
