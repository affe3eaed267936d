'use client'

import type { Validation } from '@curebook/contract/validation'
import { useQuery } from '@tanstack/react-query'
import { useMemo } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button } from '#components/button.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { CaseTable } from './case-table.tsx'
import { casesByMethod } from './cases.ts'
import { validationQueries } from './validation.queries.ts'

/** The reference cases, computed on this installation: what went in, what was expected, what came out. */
export function ValidationScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(validationQueries.run(lab.id))
  return (
    <div className="stack">
      <Breadcrumb trail={[{ href: `/l/${lab.short}/methods`, label: words('validation.methods') }]} />
      <PageHeading
        screen={words('validation.title')}
        under={words('validation.under')}
        actions={
          <>
            <Button onClick={() => window.print()}>{words('validation.print')}</Button>
            <Button tone="main" busy={query.isFetching} onClick={() => void query.refetch()}>
              {words('validation.run')}
            </Button>
          </>
        }
      />
      {query.isRefetchError && <p role="alert">{query.error.message}</p>}
      <Loaded query={query} what={words('validation.these')} height="32rem">
        {(validation) => <Outcome validation={validation} />}
      </Loaded>
    </div>
  )
}

function Outcome({ validation }: { validation: Validation }) {
  const words = useWords()
  const lab = useLaboratory()
  const methods = useMemo(() => casesByMethod(validation.rows), [validation.rows])
  const { agreeing, differing } = validation
  return (
    <div className="stack">
      <div className="panel stack" role="status">
        <div>
          <StatusMark status={differing === 0 ? 'agrees' : 'differs'}>
            {differing === 0
              ? words('validation.allAgree', { count: agreeing })
              : words('validation.someDiffer', { count: differing, of: agreeing + differing })}
          </StatusMark>
        </div>
        <dl className="facts">
          <div>
            <dt>{words('validation.at')}</dt>
            <dd>
              <TimeText at={validation.at} />
            </dd>
          </div>
          <div>
            <dt>{words('validation.version')}</dt>
            <dd className="reading">{validation.version}</dd>
          </div>
          <div>
            <dt>{words('validation.runtime')}</dt>
            <dd className="reading">{validation.node}</dd>
          </div>
          <div>
            <dt>{words('validation.laboratory')}</dt>
            <dd>{lab.name}</dd>
          </div>
        </dl>
      </div>
      {methods.map((cases) => (
        <CaseTable key={cases.method} cases={cases} />
      ))}
    </div>
  )
}
