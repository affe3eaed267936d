'use client'

import type { ReviewPoint } from '@curebook/contract/review'
import Link from 'next/link'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import styles from './review.module.css'

/** Specimens that are not finished, under one heading with their count: each blocks, and each leads to its test. */
export function UnfinishedPoints({ points }: { points: readonly ReviewPoint[] }) {
  const words = useWords()
  const lab = useLaboratory()
  return (
    <li className={styles.point}>
      <div className="row">
        <StatusMark status="refused">{words('review.blocks')}</StatusMark>
        <span className="quiet small">{words('review.kind.unfinished')}</span>
      </div>
      <h3>{words('review.unfinished', { count: points.length })}</h3>
      <ul className={`plain-list ${styles.several}`}>
        {points.map(({ key, testId, name, sentence }) => (
          <li key={key} data-point={key}>
            {testId === null ? (
              sentence
            ) : (
              <Link href={`/l/${lab.short}/bench/tests/${testId}`} prefetch={false}>
                {name ?? sentence}
              </Link>
            )}
          </li>
        ))}
      </ul>
      <p className="small">{words('review.unfinishedWhy')}</p>
    </li>
  )
}
