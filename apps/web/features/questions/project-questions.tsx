'use client'

import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { Loaded } from '#components/loaded.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { AnswerQuestion } from './answer-question.tsx'
import { QuestionList } from './question-list.tsx'
import { questionQueries } from './questions.queries.ts'

/** What the client of a project asked, for the laboratory: each with its answers and the way to answer. */
export function ProjectQuestions({ projectId }: { projectId: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(questionQueries.ofProject(lab.id, projectId))
  return (
    <section className="stack stack-tight" aria-labelledby="questions">
      <h2 id="questions">{words('questions.title')}</h2>
      <Loaded query={query} what={words('questions.these')} height="6rem">
        {({ items }) =>
          items.length === 0 ? (
            <p className="quiet">{words('questions.none')}</p>
          ) : (
            <QuestionList
              questions={items}
              about={({ reportNumber }) =>
                reportNumber !== null && (
                  <span className="small">{words('questions.aboutReport', { number: reportNumber })}</span>
                )
              }
              act={(question) => <AnswerQuestion question={question} />}
            />
          )
        }
      </Loaded>
    </section>
  )
}

/** What waits for an answer in any project; nothing stands here while nothing waits. */
export function OpenQuestions() {
  const words = useWords()
  const lab = useLaboratory()
  const { data } = useQuery(questionQueries.open(lab.id))
  if (data === undefined || data.items.length === 0) return null
  return (
    <section className="panel stack stack-tight" aria-labelledby="open-questions">
      <h2 id="open-questions">{words('questions.open', { count: data.items.length })}</h2>
      <QuestionList
        questions={data.items}
        about={({ projectId, projectName }) => (
          <Link href={`/l/${lab.short}/projects/${projectId}`} prefetch={false}>
            {projectName}
          </Link>
        )}
        act={(question) => <AnswerQuestion question={question} />}
      />
    </section>
  )
}
