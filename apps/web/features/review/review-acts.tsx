'use client'

import type { Design } from '@curebook/contract/designs'
import type { Review } from '@curebook/contract/review'
import { useId, useState } from 'react'
import { Button } from '#components/button.tsx'
import { DraftReportDialog } from '#features/reports/draft-report-dialog.tsx'
import { isNewest } from '#features/designs/design-state.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { SendBackDialog } from './send-back-dialog.tsx'
import { SignDialog } from './sign-dialog.tsx'
import styles from './review.module.css'

type Act = 'check' | 'approve' | 'send-back' | 'draft'

/** Check, approve, send back. What is off says why, always in view. */
export function ReviewActs({ design, review }: { design: Design; review: Review }) {
  const words = useWords()
  const lab = useLaboratory()
  const [act, setAct] = useState<Act>()
  if (!isNewest(design)) return null
  const sendBack = { allowed: review.state === 'in-review', sentence: words(`review.mayBeSentBack.${review.state}`) }
  return (
    <section className="stack stack-tight no-print" aria-labelledby="acts">
      <h2 id="acts">{words('review.acts')}</h2>
      <div className={styles.acts}>
        {lab.may('revision:check') && (
          <ActButton may={review.mayCheck} onAct={() => setAct('check')}>
            {words('review.check', { revision: review.revision })}
          </ActButton>
        )}
        {lab.may('revision:approve') && (
          <ActButton may={review.mayApprove} main onAct={() => setAct('approve')}>
            {words('review.approve', { revision: review.revision })}
          </ActButton>
        )}
        {lab.may('revision:send-back') && (
          <ActButton may={sendBack} onAct={() => setAct('send-back')}>
            {words('review.sendBack', { revision: review.revision })}
          </ActButton>
        )}
      </div>
      {lab.may('report:issue') && (
        <div className="row">
          <Button tone="quiet" onClick={() => setAct('draft')}>
            {words('review.readDraft')}
          </Button>
        </div>
      )}
      {act === 'draft' && <DraftReportDialog design={design} onClose={() => setAct(undefined)} />}
      {(act === 'check' || act === 'approve') && (
        <SignDialog design={design} review={review} act={act} onClose={() => setAct(undefined)} />
      )}
      {act === 'send-back' && <SendBackDialog design={design} review={review} onClose={() => setAct(undefined)} />}
    </section>
  )
}

function ActButton({
  may,
  main = false,
  onAct,
  children,
}: {
  may: { readonly allowed: boolean; readonly sentence: string }
  main?: boolean
  onAct: () => void
  children: string
}) {
  const id = useId()
  return (
    <div className={styles.act}>
      <Button tone={main ? 'main' : 'plain'} disabled={!may.allowed} aria-describedby={id} onClick={onAct}>
        {children}
      </Button>
      <p id={id} className="small">
        {may.sentence}
      </p>
    </div>
  )
}
