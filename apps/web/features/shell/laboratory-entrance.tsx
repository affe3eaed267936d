'use client'

import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useEffect, type ReactNode } from 'react'
import { ErrorState } from '#components/error-state.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { Skeleton } from '#components/skeleton.tsx'
import { ScreenLock } from '#features/device/screen-lock.tsx'
import { ApiProblem } from '#lib/api-problem.ts'
import { LaboratoryProvider } from '#lib/laboratory-provider.tsx'
import { LiveProvider } from '#lib/live-provider.tsx'
import { OutboxProvider } from '#lib/outbox/outbox-provider.tsx'
import { sessionQueries } from '#lib/session.queries.ts'
import { ShortcutProvider } from '#lib/shortcuts.tsx'
import { useWords } from '#lib/words.ts'
import { LaboratoryFrame } from './laboratory-frame.tsx'
import { SessionWarning } from './session-warning.tsx'

/** Lets a signed-in member in: finds the laboratory of the address, what it is like and what they may do there. */
export function LaboratoryEntrance({ short, children }: { short: string; children: ReactNode }) {
  const words = useWords()
  const session = useQuery(sessionQueries.current())
  const membership = session.data?.memberships.find(({ shortName }) => shortName === short)
  const laboratory = useQuery({
    ...sessionQueries.laboratory(membership?.labId ?? ''),
    enabled: membership !== undefined,
  })
  useGoToSignIn(session.error)

  if (laboratory.data !== undefined) {
    const { id, me } = laboratory.data
    return (
      <LaboratoryProvider view={laboratory.data}>
        <LiveProvider labId={id}>
          <OutboxProvider labId={id} membershipId={me.membershipId} personName={me.name}>
            <ShortcutProvider>
              <LaboratoryFrame>{children}</LaboratoryFrame>
              <SessionWarning />
              <ScreenLock />
            </ShortcutProvider>
          </OutboxProvider>
        </LiveProvider>
      </LaboratoryProvider>
    )
  }
  const failed = [session, laboratory].find(({ isError, error }) => isError && !isSignedOut(error))
  return (
    <main className="stack" style={{ padding: 'var(--gap-5)' }}>
      {failed !== undefined ? (
        <ErrorState what={words('shell.theLaboratory')} error={failed.error} onRetry={() => void failed.refetch()} />
      ) : session.data !== undefined && membership === undefined ? (
        <PageHeading screen={words('shell.notMember.title')} under={words('shell.notMember.text')} />
      ) : (
        <Skeleton height="60dvh" what={words('shell.theLaboratory')} />
      )}
    </main>
  )
}

function isSignedOut(error: unknown): boolean {
  return error instanceof ApiProblem && error.status === 401
}

/** A signed-out visitor signs in and comes back to the same address. */
function useGoToSignIn(error: unknown): void {
  const router = useRouter()
  const signedOut = isSignedOut(error)
  useEffect(() => {
    if (signedOut)
      router.replace(`/sign-in?to=${encodeURIComponent(window.location.pathname + window.location.search)}`)
  }, [signedOut, router])
}
