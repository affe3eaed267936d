'use client'

import type { Design } from '@curebook/contract/designs'
import type { Review, ReviewPoint } from '@curebook/contract/review'
import Link from 'next/link'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { StatusMark } from '#components/status-mark.tsx'
import { TextField } from '#components/text-field.tsx'
import { TimeText } from '#components/time-text.tsx'
import { isNewest } from '#features/designs/design-state.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { openPoints, pointGroups } from './point-order.ts'
import { useAcknowledge } from './review.queries.ts'
import { UnfinishedPoints } from './unfinished-points.tsx'
import { UntestedPoints } from './untested-points.tsx'
import styles from './review.module.css'

/** Everything that must be seen before a signature: voids, deviations, corrections, few replicates, what was not tested. */
export function ReviewPoints({ design, review }: { design: Design; review: Review }) {
  const words = useWords()
  const lab = useLaboratory()
  const may = lab.may('review:acknowledge') && isNewest(design) && review.state !== 'approved'
  const { unfinished, open, untested, settled } = pointGroups(review.points)
  const entry = (point: ReviewPoint) => <Point key={point.key} design={design} point={point} may={may} />
  return (
    <section className="stack stack-tight" aria-labelledby="points">
      <h2 id="points">{words('review.points')}</h2>
      {review.points.length === 0 ? (
        <EmptyState title={words('review.noPoints')} />
      ) : (
        <>
          <p role="status">{words('review.pointCounts', openPoints(review.points))}</p>
          <ul className={`plain-list ${styles.points}`}>
            {unfinished.length > 1 ? <UnfinishedPoints points={unfinished} /> : unfinished.map(entry)}
            {open.map(entry)}
            {may ? <UntestedPoints design={design} points={untested} alone={entry} /> : untested.map(entry)}
            {settled.map(entry)}
          </ul>
        </>
      )}
    </section>
  )
}

function Point({ design, point, may }: { design: Design; point: ReviewPoint; may: boolean }) {
  const words = useWords()
  const lab = useLaboratory()
  const { acknowledged } = point
  return (
    <li className={`${styles.point} ${styles.besides}`} data-point={point.key}>
      <div className="stack stack-tight">
        <div className="row">
          <StatusMark status={point.blocking ? 'refused' : acknowledged === null ? 'open' : 'decided'}>
            {words(point.blocking ? 'review.blocks' : acknowledged === null ? 'review.waits' : 'review.settled')}
          </StatusMark>
          <span className="quiet small">{words(`review.kind.${point.kind}`)}</span>
        </div>
        <p>
          {point.sentence}{' '}
          {point.testId !== null && (
            <Link href={`/l/${lab.short}/bench/tests/${point.testId}`} prefetch={false}>
              {words('review.openTest', { code: point.code ?? '' })}
            </Link>
          )}
          {point.blocking && point.kind === 'deviation' && (
            <>
              {' '}
              <Link href={`/l/${lab.short}/quality`} prefetch={false}>
                {words('review.decideThere')}
              </Link>
            </>
          )}
        </p>
        {point.effect !== null && <p className="small">{point.effect}</p>}
        {point.blocking && <p className="small">{words('review.blockingWhy')}</p>}
        {acknowledged !== null && (
          <p className="small">
            “{acknowledged.word}” <span className="quiet">{acknowledged.by.name}, </span>
            <TimeText at={acknowledged.at} look="short" />
          </p>
        )}
      </div>
      {may && !point.blocking && acknowledged === null && <WordForm design={design} point={point} />}
    </li>
  )
}

function WordForm({ design, point }: { design: Design; point: ReviewPoint }) {
  const words = useWords()
  const lab = useLaboratory()
  const [id] = useState(newId)
  const acknowledge = useAcknowledge(lab.id, design)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/review').then(({ AcknowledgeSchema }) => AcknowledgeSchema),
    read: (form) => ({ id, pointKey: point.key, word: String(form.get('word')) }),
    save: acknowledge,
  })
  return (
    <form className={styles.word} noValidate onSubmit={onSubmit} aria-busy={acknowledge.isPending}>
      <TextField
        name="word"
        label={
          <>
            {words('review.word')} <span className="sr-only">{words('review.wordFor', { point: point.sentence })}</span>
          </>
        }
        autoComplete="off"
        error={errors.word ?? errors.pointKey ?? errors.form}
      />
      <Button
        type="submit"
        busy={acknowledge.isPending}
        aria-label={words('review.settleNamed', { point: point.sentence })}
      >
        {words('review.settle')}
      </Button>
      {acknowledge.status === 'pending' && <SaveState saving={savingOf(acknowledge)} />}
    </form>
  )
}
