'use client'

import type { Design } from '@curebook/contract/designs'
import type { Review } from '@curebook/contract/review'
import { usePathname } from 'next/navigation'
import { useState } from 'react'
import { Button, ButtonLink } from '#components/button.tsx'
import { isNewest } from '#features/designs/design-state.ts'
import { IssueReportDialog } from '#features/reports/issue-report-dialog.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { NewRevisionDialog } from './new-revision-dialog.tsx'

/** What an approval opens: the report, a new revision; and what of the record has changed since it was signed. */
export function AfterApproval({ design, review }: { design: Design; review: Review }) {
  const words = useWords()
  const lab = useLaboratory()
  const path = usePathname()
  const [dialog, setDialog] = useState<'issue' | 'revision'>()
  const changed = review.changedSinceApproval
  return (
    <>
      {changed.length > 0 && (
        <section className="caution stack stack-tight" aria-labelledby="changed">
          <h2 id="changed">{words('review.changed')}</h2>
          <p>{words('review.changedAbout')}</p>
          <ul>
            {changed.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </section>
      )}
      <div className="row no-print">
        {review.reportId === null
          ? lab.may('report:issue') && (
              <Button tone="main" onClick={() => setDialog('issue')}>
                {words('reports.issue')}
              </Button>
            )
          : lab.may('report:read') && (
              <ButtonLink tone="main" href={`${path}?tab=report`}>
                {words('review.toReport')}
              </ButtonLink>
            )}
        {isNewest(design) && lab.may('revision:create') && (
          <Button onClick={() => setDialog('revision')}>{words('review.newRevision')}</Button>
        )}
      </div>
      {dialog === 'issue' && <IssueReportDialog design={design} onClose={() => setDialog(undefined)} />}
      {dialog === 'revision' && <NewRevisionDialog design={design} onClose={() => setDialog(undefined)} />}
    </>
  )
}
