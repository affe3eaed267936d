'use client'

import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PasswordField, TextField } from '#components/text-field.tsx'
import { useSecondFactor, useSignIn } from '#features/session/session.queries.ts'
import { ApiProblem, fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'
import { useWords } from '#lib/words.ts'
import { beginAnew, deviceQueries } from './device.queries.ts'
import { PeopleChoice } from './people-choice.tsx'

/** Those of this shift who come back by PIN, and a sign-in for whoever comes to this device first. */
export function ChangePersonDialog({ onClose }: { onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const people = useQuery(deviceQueries.people(lab.id))
  const { waiting } = useOutbox()
  const [signingIn, setSigningIn] = useState(false)
  return (
    <Dialog title={words('device.change')} onClose={onClose}>
      <p>{words('device.lost', { name: lab.me.name })}</p>
      {waiting > 0 && <p>{words('device.waiting', { count: waiting, name: lab.me.name })}</p>}
      <Loaded query={people} what={words('device.thePeople')} height="6rem">
        {({ people: all, ownPin }) => (
          <>
            {all.some(({ current }) => !current) ? <PeopleChoice people={all} /> : <p>{words('device.nobody')}</p>}
            {!ownPin && (
              <p>
                {words('device.noPin')}{' '}
                <Link href={`/l/${lab.short}/account`} prefetch={false} onClick={onClose}>
                  {words('device.setOne')}
                </Link>
              </p>
            )}
          </>
        )}
      </Loaded>
      {signingIn ? (
        <OtherSignIn />
      ) : (
        <div>
          <Button onClick={() => setSigningIn(true)}>{words('device.signInOther')}</Button>
        </div>
      )}
    </Dialog>
  )
}

/** Somebody signs in here for the first time in this session of the device; who was here before stays known to it. */
function OtherSignIn() {
  const words = useWords()
  const signIn = useSignIn()
  const second = useSecondFactor()
  const asksCode = signIn.error instanceof ApiProblem && signIn.error.code === 'second-factor-needed'
  const errors = fieldErrors(asksCode ? second.error : signIn.error)
  return (
    <form
      className="stack"
      noValidate
      aria-busy={signIn.isPending || second.isPending}
      onSubmit={(event) => {
        event.preventDefault()
        const form = new FormData(event.currentTarget)
        if (asksCode) second.mutate({ code: String(form.get('code')).trim() }, { onSuccess: beginAnew })
        else
          signIn.mutate(
            { email: String(form.get('email')).trim(), password: String(form.get('password')) },
            { onSuccess: beginAnew },
          )
      }}
    >
      {errors.form !== undefined && <p role="alert">{errors.form}</p>}
      {asksCode ? (
        <TextField
          name="code"
          label={words('device.code')}
          inputMode="numeric"
          autoComplete="one-time-code"
          autoFocus
          error={errors.code}
        />
      ) : (
        <>
          <TextField
            name="email"
            label={words('device.email')}
            type="email"
            autoComplete="username"
            autoFocus
            error={errors.email}
          />
          <PasswordField
            name="password"
            label={words('device.password')}
            autoComplete="current-password"
            error={errors.password}
          />
        </>
      )}
      <Button type="submit" tone="main" busy={signIn.isPending || second.isPending}>
        {words('device.signIn')}
      </Button>
    </form>
  )
}
