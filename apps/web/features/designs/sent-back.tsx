'use client'

import type { Design } from '@curebook/contract/designs'
import { useId, type ReactNode } from 'react'
import { TimeText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'

/** Why a design came back, and what it names to be put right. */
export function SentBack({ sentBack, title }: { sentBack: NonNullable<Design['sentBack']>; title: ReactNode }) {
  const words = useWords()
  const id = useId()
  return (
    <section className="caution stack stack-tight" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      <p>{sentBack.reason}</p>
      <ul>
        {sentBack.points.map((point) => (
          <li key={point}>{pointWords(point, words)}</li>
        ))}
      </ul>
      <p className="quiet small">
        <TimeText at={sentBack.at} />
      </p>
    </section>
  )
}

/** A point is a specimen's code, the recommendation, or the key of a point of the review, which the review spells out. */
function pointWords(point: string, words: ReturnType<typeof useWords>): string {
  if (point === 'recommendation') return words('designs.point.recommendation')
  return /^[0-9A-Z]{4,5}(\.B)?$/.test(point) ? words('designs.point.specimen', { code: point }) : point
}
