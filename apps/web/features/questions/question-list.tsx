'use client'

import type { Question } from '@curebook/contract/questions'
import type { ReactNode } from 'react'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'
import styles from './questions.module.css'

/** Questions with their answers, each with who and when. `act` stands under each: the laboratory's answer. */
export function QuestionList({
  questions,
  about,
  act,
}: {
  questions: readonly Question[]
  /** What a question is about, where the place does not say it. */
  about?: (question: Question) => ReactNode
  act?: (question: Question) => ReactNode
}) {
  const words = useWords()
  return (
    <ul className={`plain-list ${styles.questions}`}>
      {questions.map((question) => (
        <li key={question.id} className="stack stack-tight">
          <div className="row">
            <StatusMark status={question.answers.length > 0 ? 'decided' : 'open'}>
              {words(question.answers.length > 0 ? 'questions.answered' : 'questions.waits')}
            </StatusMark>
            <span className="quiet small">
              {question.askedBy}, <TimeText at={question.askedAt} look="short" />
            </span>
            {about?.(question)}
          </div>
          <p className={styles.text}>{question.text}</p>
          {question.answers.map(({ id, text, answeredBy, answeredAt }) => (
            <div key={id} className={styles.answer}>
              <p className="quiet small">
                {words('questions.answerOf', { name: answeredBy })} <TimeText at={answeredAt} look="short" />
              </p>
              <p className={styles.text}>{text}</p>
            </div>
          ))}
          {act?.(question)}
        </li>
      ))}
    </ul>
  )
}
