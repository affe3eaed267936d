'use client'

import type { ReportCheck } from '@curebook/contract/reports'
import { useQuery } from '@tanstack/react-query'
import { ErrorState } from '#components/error-state.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { Skeleton } from '#components/skeleton.tsx'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { ApiProblem } from '#lib/api-problem.ts'
import { useWords } from '#lib/words.ts'
import { CheckForm } from './check-form.tsx'
import { reportCheckQueries } from './report-check.queries.ts'
import styles from './report-check.module.css'

const marks = {
  current: 'pass',
  superseded: 'superseded',
  withdrawn: 'void',
  unknown: 'fail',
} as const satisfies Record<ReportCheck['state'], Status>

const unknown: ReportCheck = {
  genuine: false,
  state: 'unknown',
  sentence: '',
  number: null,
  laboratory: null,
  issuedAt: null,
  digest: null,
}

/** What a code says: genuine and in force, replaced, withdrawn, or not from here. No result of the report is shown. */
export function CheckedScreen({ code }: { code: string }) {
  const words = useWords()
  const query = useQuery(reportCheckQueries.of(code))
  const missing = query.error instanceof ApiProblem && query.error.status === 404
  const check = query.data ?? (missing ? unknown : undefined)
  return (
    <div className="stack stack-wide">
      <PageHeading
        screen={words('reportCheck.title')}
        under={words('reportCheck.codeIs', { code })}
        failed={query.isError && !missing}
      />
      <div aria-live="polite">
        {check !== undefined ? (
          <Answer check={check} />
        ) : query.isError ? (
          <ErrorState what={words('reportCheck.answer')} error={query.error} onRetry={() => void query.refetch()} />
        ) : (
          <Skeleton height="12rem" what={words('reportCheck.answer')} />
        )}
      </div>
      <section className="stack" aria-labelledby="another">
        <h2 id="another">{words('reportCheck.another')}</h2>
        <CheckForm />
      </section>
    </div>
  )
}

function Answer({ check }: { check: ReportCheck }) {
  const words = useWords()
  const { state, number, laboratory, issuedAt, digest } = check
  return (
    <div className="panel stack">
      <p className={styles.verdict}>
        <StatusMark status={marks[state]}>{words(`reportCheck.state.${state}`)}</StatusMark>
      </p>
      <p className="prose">{check.sentence === '' ? words('reportCheck.notFromHere') : check.sentence}</p>
      {check.genuine && (
        <dl className="facts">
          {number !== null && <Fact name={words('reportCheck.number')}>{number}</Fact>}
          {laboratory !== null && <Fact name={words('reportCheck.laboratory')}>{laboratory}</Fact>}
          {issuedAt !== null && (
            <Fact name={words('reportCheck.issued')}>
              <TimeText at={issuedAt} /> {words('reportCheck.zone')}
            </Fact>
          )}
        </dl>
      )}
      {digest !== null && (
        <div>
          <p className="quiet small">{words('reportCheck.digest')}</p>
          <p className={`${styles.digest} reading`}>{digest}</p>
          <p className="small">{words('reportCheck.digestAbout')}</p>
        </div>
      )}
    </div>
  )
}

function Fact({ name, children }: { name: string; children: React.ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  )
}
