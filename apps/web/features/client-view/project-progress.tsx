'use client'

import type { ClientProject } from '@curebook/contract/reports'
import Link from 'next/link'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { ExpectedText } from '#features/expected-days/expected-text.tsx'
import { AskQuestion } from '#features/questions/ask-question.tsx'
import { QuestionList } from '#features/questions/question-list.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { ownReportAddress } from './client-view.queries.ts'
import { inReadingOrder, replacementOf, type OwnReport } from './own-reports.ts'
import styles from './client-view.module.css'

/** Where one project stands, in sentences. `linked` makes its name the way to its own page. */
export function ProjectProgress({ project, linked = false }: { project: ClientProject; linked?: boolean }) {
  const words = useWords()
  const lab = useLaboratory()
  const heading = `project-${project.id}`
  return (
    <article className={`${styles.project} panel stack keep`} aria-labelledby={linked ? heading : undefined}>
      {linked && (
        <h2 id={heading}>
          <Link href={`/l/${lab.short}/projects/${project.id}`} prefetch={false}>
            {project.name}
          </Link>
        </h2>
      )}
      <p className={styles.status}>{project.status}</p>
      {project.testsTotal > 0 && <TestsDone project={project} />}
      <dl className="facts">
        <div>
          <dt>{words('clientView.next')}</dt>
          <dd>{project.next}</dd>
        </div>
        {project.expected.length > 0 && (
          <div>
            <dt>{words('clientView.when')}</dt>
            <dd>
              <ExpectedText days={project.expected} />
            </dd>
          </div>
        )}
        {project.specification !== null && (
          <div>
            <dt>{words('clientView.specification')}</dt>
            <dd>{words('clientView.specificationVersion', project.specification)}</dd>
          </div>
        )}
        <div>
          <dt>{words('clientView.askWhom')}</dt>
          <dd style={{ whiteSpace: 'pre-line' }}>{project.askWhom}</dd>
        </div>
      </dl>
      <section className="stack stack-tight" aria-label={words('clientView.reportsOf', { name: project.name })}>
        {linked ? <h3>{words('clientView.reports')}</h3> : <h2>{words('clientView.reports')}</h2>}
        {project.reports.length === 0 ? (
          <p className="quiet">{words('clientView.noReports')}</p>
        ) : (
          <ul className="plain-list stack stack-tight">
            {inReadingOrder(project.reports).map((report) => (
              <li key={report.id} className={styles.report}>
                <ReportLine report={report} reports={project.reports} />
                <PlaceQuestions project={project} report={report} />
              </li>
            ))}
          </ul>
        )}
      </section>
      <section className="stack stack-tight" aria-label={words('clientView.questionsOf', { name: project.name })}>
        {linked ? <h3>{words('clientView.questions')}</h3> : <h2>{words('clientView.questions')}</h2>}
        <PlaceQuestions project={project} />
      </section>
    </article>
  )
}

/** What was asked at this place with its answers, and the way to ask more. */
function PlaceQuestions({ project, report }: { project: ClientProject; report?: OwnReport }) {
  const questions = project.questions.filter(({ reportId }) => reportId === (report?.id ?? null))
  return (
    <div className="stack stack-tight">
      {questions.length > 0 && <QuestionList questions={questions} />}
      <AskQuestion projectId={project.id} projectName={project.name} report={report} />
    </div>
  )
}

function TestsDone({ project: { testsDone, testsTotal } }: { project: ClientProject }) {
  const words = useWords()
  const text = words('clientView.testsDone', { done: testsDone, total: testsTotal })
  return (
    <div className="stack stack-tight">
      <progress className={styles.bar} value={testsDone} max={testsTotal} aria-label={text} />
      <span>{text}</span>
    </div>
  )
}

function ReportLine({ report, reports }: { report: OwnReport; reports: readonly OwnReport[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const replacement = replacementOf(report, reports)
  return (
    <>
      <a className={styles.open} href={ownReportAddress(lab.id, report.id)} target="_blank" rel="noreferrer">
        {words('clientView.openReport', { number: report.number })}
      </a>
      <span className="row" style={{ gap: 'var(--gap-2)' }}>
        <StatusMark
          status={report.state === 'current' ? 'current' : report.state === 'withdrawn' ? 'void' : 'superseded'}
        >
          {words(`clientView.reportState.${report.state}`)}
        </StatusMark>
        <span>{report.designName},</span> <TimeText at={report.issuedAt} look="day" />
      </span>
      {report.state !== 'current' && (
        <span>
          {replacement === undefined ? (
            words(`clientView.noLonger.${report.state}`)
          ) : (
            <>
              {words('clientView.replaced')}{' '}
              <a href={ownReportAddress(lab.id, replacement.id)} target="_blank" rel="noreferrer">
                {words('clientView.openReport', { number: replacement.number })}
              </a>
            </>
          )}
        </span>
      )}
    </>
  )
}
