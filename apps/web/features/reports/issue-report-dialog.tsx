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
import { useIssueReport } from './reports.queries.ts'

/** Issues the report of an approved revision from its signed content; a further one says why it takes the other's place. */
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
  const [id] = useState(newId)
  const issue = useIssueReport(lab.id, design)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/reports').then(({ IssueReportSchema }) => IssueReportSchema),
    read: (form) => {
      const reason = String(form.get('reason') ?? '').trim()
      return { id, designId: design.id, revisionId: design.revisionId, ...(reason === '' ? {} : { reason }) }
    },
    save: issue,
    onSaved: () => {
      confirm(words('reports.issued'))
      onClose()
    },
  })
  return (
    <Dialog title={words(replacing ? 'reports.issueAgain' : 'reports.issue')} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={issue.isPending}>
        <FormErrors errors={errors} />
        <p>{words('reports.issueAbout', { design: design.name, revision: design.revision })}</p>
        <TextArea
          name="reason"
          label={words(replacing ? 'reports.amendReason' : 'reports.reason')}
          hint={words('reports.reasonHint')}
          error={errors.reason}
        />
        <div className="row">
          <Button type="submit" tone="main" busy={issue.isPending}>
            {words('reports.issueOf', { revision: design.revision })}
          </Button>
          <SaveState saving={savingOf(issue)} />
        </div>
      </form>
    </Dialog>
  )
}
