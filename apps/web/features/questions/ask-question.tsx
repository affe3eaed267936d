'use client'

import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useAskQuestion } from './questions.queries.ts'
import { WriteDialog } from './write-dialog.tsx'

type Place = {
  readonly projectId: string
  readonly projectName: string
  readonly report?: { id: string; number: string }
}

/** A question is put from the place that it concerns: a project, or one of its reports. */
export function AskQuestion(place: Place) {
  const words = useWords()
  const lab = useLaboratory()
  const [asking, setAsking] = useState(false)
  if (!lab.may('question:ask')) return null
  const { projectName, report } = place
  const title = report
    ? words('questions.askAboutReport', { number: report.number })
    : words('questions.askAbout', { project: projectName })
  return (
    <div className="row no-print">
      <Button size="small" onClick={() => setAsking(true)}>
        {title}
      </Button>
      {asking && <AskDialog {...place} title={title} onClose={() => setAsking(false)} />}
    </div>
  )
}

function AskDialog({ projectId, report, title, onClose }: Place & { title: string; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const [id] = useState(newId)
  const ask = useAskQuestion(lab.id, lab.me.clientId)
  const checked = useCheckedSubmit({
    schema: () => import('@curebook/contract/questions').then(({ AskQuestionSchema }) => AskQuestionSchema),
    read: (form) => ({ id, projectId, reportId: report?.id ?? null, text: String(form.get('text')) }),
    save: ask,
    onSaved: () => {
      confirm(words('questions.asked'))
      onClose()
    },
  })
  return (
    <WriteDialog
      title={title}
      label={words('questions.question')}
      hint={words('questions.questionHint', { laboratory: lab.name })}
      send={words('questions.send')}
      save={ask}
      checked={checked}
      onClose={onClose}
    />
  )
}
