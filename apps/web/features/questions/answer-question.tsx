'use client'

import type { Question } from '@curebook/contract/questions'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useAnswerQuestion } from './questions.queries.ts'
import { WriteDialog } from './write-dialog.tsx'
import styles from './questions.module.css'

/** The laboratory's answer; a further one adds to the first and changes nothing of it. */
export function AnswerQuestion({ question }: { question: Question }) {
  const words = useWords()
  const lab = useLaboratory()
  const [answering, setAnswering] = useState(false)
  if (!lab.may('question:answer')) return null
  return (
    <div className="row no-print">
      <Button size="small" onClick={() => setAnswering(true)}>
        {words(question.answers.length > 0 ? 'questions.addAnswer' : 'questions.answer')}{' '}
        <span className="sr-only">{words('questions.to', { question: question.text.slice(0, 80) })}</span>
      </Button>
      {answering && <AnswerDialog question={question} onClose={() => setAnswering(false)} />}
    </div>
  )
}

function AnswerDialog({ question, onClose }: { question: Question; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const [id] = useState(newId)
  const answer = useAnswerQuestion(lab.id, question)
  const checked = useCheckedSubmit({
    schema: () => import('@curebook/contract/questions').then(({ AnswerQuestionSchema }) => AnswerQuestionSchema),
    read: (form) => ({ id, text: String(form.get('text')) }),
    save: answer,
    onSaved: () => {
      confirm(words('questions.answerSent'))
      onClose()
    },
  })
  return (
    <WriteDialog
      title={words('questions.answerTitle', { name: question.askedBy })}
      label={words('questions.theAnswer')}
      hint={words('questions.answerHint')}
      send={words('questions.sendAnswer')}
      save={answer}
      checked={checked}
      onClose={onClose}
    >
      <p className={styles.text}>“{question.text}”</p>
    </WriteDialog>
  )
}
