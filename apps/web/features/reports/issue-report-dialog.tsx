'use client'

import type { Design } from '@curebook/contract/designs'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { ReportPreviewPart } from './report-preview-part.tsx'
import { usePreviewReport } from './reports.queries.ts'

/** Two steps: the report is shown as it would go out, then exactly that file is issued. A further one says why. */
export function IssueReportDialog({
  design,
  replacing = false,
  onClose,
}: {
  design: Design
  replacing?: boolean
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const [reason, setReason] = useState('')
  const [outOfDate, setOutOfDate] = useState<string>()
  const preview = usePreviewReport(lab.id)
  const body = () => {
    const said = reason.trim()
    return { id: newId(), designId: design.id, revisionId: design.revisionId, ...(said === '' ? {} : { reason: said }) }
  }
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/reports').then(({ PreviewReportSchema }) => PreviewReportSchema),
    read: body,
    save: preview,
  })
  return (
    <Dialog title={words(replacing ? 'reports.issueAgain' : 'reports.issue')} wide onClose={onClose}>
      {outOfDate !== undefined && (
        <p className="caution" role="alert">
          {outOfDate} {preview.data && words('reports.shownAnew')}
        </p>
      )}
      {preview.data ? (
        <ReportPreviewPart
          key={preview.data.id}
          design={design}
          preview={preview.data}
          onIssued={() => {
            confirm(words('reports.issued'))
            onClose()
          }}
          onOutOfDate={(sentence) => {
            setOutOfDate(sentence)
            preview.mutate(body())
          }}
          onChange={() => {
            setOutOfDate(undefined)
            preview.reset()
          }}
        />
      ) : (
        <form className="stack" noValidate onSubmit={onSubmit} aria-busy={preview.isPending}>
          <FormErrors errors={errors} />
          <p>{words('reports.issueAbout', { design: design.name, revision: design.revision })}</p>
          <TextArea
            name="reason"
            label={words(replacing ? 'reports.amendReason' : 'reports.reason')}
            hint={words(replacing ? 'reports.reasonHint' : 'reports.remarkHint')}
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
            error={errors.reason}
          />
          <div className="row">
            <Button type="submit" tone="main" busy={preview.isPending}>
              {words('reports.preview')}
            </Button>
            <SaveState saving={savingOf(preview)} />
          </div>
        </form>
      )}
    </Dialog>
  )
}
