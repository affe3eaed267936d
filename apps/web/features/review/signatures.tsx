'use client'

import type { Review } from '@curebook/contract/review'
import { EmptyState } from '#components/empty-state.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'
import styles from './review.module.css'

/** Who signed what, when, and with which meaning; each digest names the exact content. */
export function Signatures({ review }: { review: Review }) {
  const words = useWords()
  return (
    <section className="stack stack-tight" aria-labelledby="signatures">
      <h2 id="signatures">{words('review.signatures')}</h2>
      {review.signatures.length === 0 && <EmptyState title={words('review.noSignatures')} />}
      <ul className={`plain-list ${styles.points}`}>
        {review.signatures.map((signature) => (
          <li key={signature.id} className={styles.point}>
            <div className="row">
              <StatusMark status={signature.meaning}>{words(`review.meant.${signature.meaning}`)}</StatusMark>
              <span>
                {signature.name}, {words('review.asRole', { role: signature.role })}
              </span>
              <TimeText at={signature.at} />
            </div>
            {signature.statement !== '' && <p>{signature.statement}</p>}
            <p className="quiet small">
              {words('review.digest')} <span className={styles.digest}>{signature.digest}</span>
            </p>
            {signature.meaning === 'checked' && signature.digest !== review.workDigest && (
              <p className="small">{words('review.checkedEarlier')}</p>
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}
