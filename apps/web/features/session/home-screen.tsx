'use client'

import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useEffect } from 'react'
import { ErrorState } from '#components/error-state.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { Skeleton } from '#components/skeleton.tsx'
import { ApiProblem } from '#lib/api-problem.ts'
import { firstRunQueries } from '#features/first-run/first-run.queries.ts'
import { sessionQueries } from '#lib/session.queries.ts'
import { useWords } from '#lib/words.ts'
import { landingOf } from './landing.ts'

/** The plain address: to the first screen, to sign-in, or to the first run where there is no laboratory yet. */
export function HomeScreen() {
  const words = useWords()
  const router = useRouter()
  const session = useQuery(sessionQueries.current())
  const signedOut = session.error instanceof ApiProblem && session.error.status === 401
  const firstRun = useQuery({ ...firstRunQueries.state(), enabled: signedOut })
  useEffect(() => {
    if (session.data !== undefined) router.replace(landingOf(session.data))
    else if (firstRun.data !== undefined) router.replace(firstRun.data.needed ? '/first-run' : '/sign-in')
  }, [session.data, firstRun.data, router])
  const failed = [session, firstRun].find(
    ({ isError, error }) => isError && !(error instanceof ApiProblem && error.status === 401),
  )
  return (
    <div className="stack">
      <PageHeading screen={words('common.site')} failed={failed !== undefined} />
      {failed === undefined ? (
        <Skeleton height="8rem" what={words('session.home.what')} />
      ) : (
        <ErrorState what={words('session.home.what')} error={failed.error} onRetry={() => void failed.refetch()} />
      )}
    </div>
  )
}
