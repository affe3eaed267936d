'use client'

import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useEffect } from 'react'
import { ButtonLink } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { ApiProblem } from '#lib/api-problem.ts'
import { sessionQueries } from '#lib/session.queries.ts'
import { useWords } from '#lib/words.ts'
import { firstScreenAddress } from './landing.ts'

export function ChooseLaboratoryScreen() {
  const words = useWords()
  const router = useRouter()
  const session = useQuery(sessionQueries.current())
  const signedOut = session.error instanceof ApiProblem && session.error.status === 401
  useEffect(() => {
    if (signedOut) router.replace('/sign-in?to=/choose-laboratory')
  }, [signedOut, router])
  return (
    <div className="stack">
      <PageHeading screen={words('session.choose.title')} />
      <Loaded query={session} what={words('session.choose.what')}>
        {({ memberships }) =>
          memberships.length === 0 ? (
            <EmptyState title={words('session.choose.none')}>{words('session.choose.noneHelp')}</EmptyState>
          ) : (
            <ul className="plain-list stack">
              {memberships.map((membership) => (
                <li key={membership.membershipId} className="panel row row-between">
                  <span>
                    <span className="strong">{membership.laboratory}</span>
                    <br />
                    <span className="quiet">
                      {membership.roles.map((role) => words(`shell.role.${role}`)).join(', ')}
                    </span>
                  </span>
                  <ButtonLink href={firstScreenAddress(membership)} tone="main">
                    {words('session.choose.enter', { laboratory: membership.laboratory })}
                  </ButtonLink>
                </li>
              ))}
            </ul>
          )
        }
      </Loaded>
    </div>
  )
}
