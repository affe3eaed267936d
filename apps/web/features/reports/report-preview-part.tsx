'use client'

import type { Design } from '@curebook/contract/designs'
import type { ReportPreview } from '@curebook/contract/reports'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { ApiProblem } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { previewFile, useIssueReport } from './reports.queries.ts'
import { UnreleasedFile } from './unreleased-file.tsx'
import styles from './reports.module.css'

/** The file as it would go out, and the one button that releases exactly it. Out of date, it is shown anew and asked again. */
export function ReportPreviewPart({
  design,
  preview,
  onIssued,
  onOutOfDate,
  onChange,
}: {
  design: Design
  preview: ReportPreview
  onIssued: () => void
  onOutOfDate: (sentence: string) => void
  onChange: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const [id] = useState(newId)
  const issue = useIssueReport(lab.id, design)
  const { number, amendment, revision, bytes, fileDigest } = preview
  const shown = amendment > 0 ? `${number}, ${words('reports.amendment', { amendment })}` : number
  const release = () =>
    issue.mutate(
      { id, previewId: preview.id },
      {
        onSuccess: onIssued,
        onError: (error) => {
          if (error instanceof ApiProblem && error.code === 'changed-meanwhile') onOutOfDate(error.detail)
        },
      },
    )
  return (
    <div className="stack">
      <UnreleasedFile
        src={previewFile(lab.id, preview.id)}
        mark={words('reports.notReleased')}
        about={preview.sentence}
        title={words('reports.previewOf', { number: shown })}
        open={words('reports.openPreview', { number: shown })}
      />
      <dl className="facts">
        <div>
          <dt>{words('reports.number')}</dt>
          <dd className="reading">{shown}</dd>
        </div>
        <div>
          <dt>{words('reports.fileDigest')}</dt>
          <dd className={styles['file-digest']} data-file-digest>
            {fileDigest}
          </dd>
        </div>
        <div>
          <dt>{words('reports.fileSize')}</dt>
          <dd>{words('reports.kilobytes', { size: Math.ceil(bytes / 1024) })}</dd>
        </div>
      </dl>
      <div className="row">
        <Button tone="main" busy={issue.isPending} onClick={release}>
          {words('reports.issueOf', { revision })}
        </Button>
        <Button onClick={onChange}>{words('reports.changeReason')}</Button>
        <SaveState saving={savingOf(issue)} />
      </div>
    </div>
  )
}
