'use client'

import type { Review } from '@curebook/contract/review'
import { TimeText } from '#components/time-text.tsx'
import { ComparedPart } from '#features/compare/compared-part.tsx'
import { useWords } from '#lib/words.ts'

/** What was signed beside what stands now, where they part; and whether the signature still counts. */
export function SinceSigned({ since }: { since: NonNullable<Review['sinceSigned']> }) {
  const words = useWords()
  const heads = { first: words('review.since.signed'), second: words('review.since.now') }
  return (
    <section className="caution stack stack-tight" aria-labelledby="since-signed">
      <h2 id="since-signed">{words(`review.since.${since.meaning}`, { name: since.name })}</h2>
      <p>
        {words(since.undone ? 'review.since.undone' : 'review.since.kept')} <TimeText at={since.at} />
      </p>
      {since.parts.length === 0 && <p>{words('review.since.noFigure')}</p>}
      {since.parts.map((part) => (
        <ComparedPart key={part.key} part={part} heads={heads} onlyDifferent />
      ))}
    </section>
  )
}
