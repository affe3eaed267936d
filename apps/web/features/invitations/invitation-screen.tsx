'use client'

import type { InvitationOffer } from '@curebook/contract/people'
import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { Button, ButtonLink } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { PasswordField, TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { sessionQueries } from '#lib/session.queries.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { forgetInvitationToken, useInvitationToken } from './invitation-token.ts'
import { invitationQueries, useAcceptInvitation } from './invitations.queries.ts'

export function InvitationScreen() {
  const words = useWords()
  const token = useInvitationToken()
  if (token === undefined) return null
  if (token === null)
    return <PageHeading screen={words('invitation.noToken')} under={words('invitation.noTokenHelp')} failed />
  return <InvitationOf token={token} />
}

function InvitationOf({ token }: { token: string }) {
  const words = useWords()
  const offer = useQuery(invitationQueries.offer(token))
  return (
    <div className="stack">
      {offer.isError && (
        <PageHeading screen={words('invitation.notOpen')} under={words('invitation.askAgain')} failed />
      )}
      <Loaded query={offer} what={words('invitation.what')}>
        {(found) => <Offer token={token} offer={found} />}
      </Loaded>
    </div>
  )
}

function Offer({ token, offer }: { token: string; offer: InvitationOffer }) {
  const words = useWords()
  const session = useQuery(sessionQueries.current())
  const under = words('invitation.about', {
    roles: offer.roles.map((role) => words(`shell.role.${role}`)).join(', '),
    email: offer.email,
  })
  const signedInAs = session.data?.account.email.toLowerCase()
  return (
    <>
      <PageHeading screen={words('invitation.title', { laboratory: offer.laboratory })} under={under} />
      {signedInAs === offer.email.toLowerCase() ? (
        <JoinForm token={token} />
      ) : signedInAs !== undefined ? (
        <p className="caution">{words('invitation.otherAccount', { account: signedInAs, email: offer.email })}</p>
      ) : offer.accountExists ? (
        <>
          <p>{words('invitation.accountExists')}</p>
          <ButtonLink tone="main" href="/sign-in?to=/invitation">
            {words('invitation.signIn')}
          </ButtonLink>
        </>
      ) : (
        <AccountForm token={token} offer={offer} />
      )}
    </>
  )
}

/** Signed in with the invited address: the token alone is enough. */
function JoinForm({ token }: { token: string }) {
  const words = useWords()
  const router = useRouter()
  const accept = useAcceptInvitation()
  return (
    <div className="stack" data-form>
      <FormErrors errors={fieldErrors(accept.error)} />
      <Button
        tone="main"
        busy={accept.isPending}
        onClick={() =>
          accept.mutate(
            { token },
            {
              onSuccess: () => {
                forgetInvitationToken()
                router.replace('/')
              },
            },
          )
        }
      >
        {words('invitation.join')}
      </Button>
    </div>
  )
}

function AccountForm({ token, offer }: { token: string; offer: InvitationOffer }) {
  const words = useWords()
  const router = useRouter()
  const confirm = useConfirmation()
  const accept = useAcceptInvitation()
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/people').then(({ AcceptInvitationSchema }) => AcceptInvitationSchema),
    read: (form) => ({
      token,
      name: String(form.get('name')),
      initials: String(form.get('initials')),
      password: String(form.get('password')),
    }),
    save: accept,
    onSaved: () => {
      forgetInvitationToken()
      confirm(words('invitation.made'))
      router.replace('/sign-in')
    },
  })
  return (
    <form className="stack" onSubmit={onSubmit} noValidate aria-busy={accept.isPending}>
      <FormErrors errors={errors} />
      <TextField name="email" label={words('invitation.email')} value={offer.email} readOnly autoComplete="username" />
      <TextField
        name="name"
        label={words('invitation.name')}
        defaultValue={offer.name}
        autoComplete="name"
        error={errors.name}
      />
      <TextField
        name="initials"
        label={words('invitation.initials')}
        hint={words('invitation.initialsHint')}
        defaultValue={initialsOf(offer.name)}
        autoComplete="off"
        error={errors.initials}
      />
      <PasswordField
        name="password"
        label={words('invitation.password')}
        hint={words('invitation.passwordHint')}
        autoComplete="new-password"
        error={errors.password}
      />
      <Button type="submit" tone="main" busy={accept.isPending}>
        {words('invitation.makeAccount')}
      </Button>
    </form>
  )
}

/** First letters of a name, at most three. */
function initialsOf(name: string): string {
  return name
    .split(/\s+/)
    .map((part) => part.charAt(0))
    .join('')
    .slice(0, 3)
    .toUpperCase()
}
