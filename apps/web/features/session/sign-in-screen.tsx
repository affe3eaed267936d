'use client'

import { useQuery } from '@tanstack/react-query'
import { useRouter, useSearchParams } from 'next/navigation'
import { useEffect, useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { PasswordField, TextField } from '#components/text-field.tsx'
import { ApiProblem, fieldErrors } from '#lib/api-problem.ts'
import { sessionQueries } from '#lib/session.queries.ts'
import { useWords } from '#lib/words.ts'
import { landingOf } from './landing.ts'
import { useSecondFactor, useSignIn } from './session.queries.ts'

export function SignInScreen() {
  const words = useWords()
  const router = useRouter()
  const wanted = useSearchParams().get('to')
  const session = useQuery(sessionQueries.current())
  const [asksCode, setAsksCode] = useState(false)
  useEffect(() => {
    if (session.data !== undefined) router.replace(landingOf(session.data, wanted))
  }, [session.data, wanted, router])
  const arrive = () => void session.refetch()
  return asksCode ? (
    <SecondFactorForm onDone={arrive} />
  ) : (
    <PasswordForm onDone={arrive} onCode={() => setAsksCode(true)} title={words('session.signIn.title')} />
  )
}

function PasswordForm({ title, onDone, onCode }: { title: string; onDone: () => void; onCode: () => void }) {
  const words = useWords()
  const signIn = useSignIn()
  const [missing, setMissing] = useState<Record<string, string>>({})
  const needsCode = isCodeNeeded(signIn.error)
  const errors = Object.keys(missing).length > 0 ? missing : needsCode ? {} : fieldErrors(signIn.error)
  useEffect(() => {
    if (needsCode) onCode()
  }, [needsCode, onCode])

  function onSubmit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    const form = new FormData(event.currentTarget)
    const [email, password] = [String(form.get('email')).trim(), String(form.get('password'))]
    const found = {
      ...(email === '' && { email: words('session.signIn.enterEmail') }),
      ...(password === '' && { password: words('session.signIn.enterPassword') }),
    }
    setMissing(found)
    if (Object.keys(found).length === 0) signIn.mutate({ email, password }, { onSuccess: onDone })
  }

  return (
    <div className="stack">
      <PageHeading screen={title} failed={Object.keys(errors).length > 0} />
      <form className="stack" onSubmit={onSubmit} noValidate aria-busy={signIn.isPending}>
        <FormErrors errors={errors} />
        <TextField
          name="email"
          type="email"
          label={words('session.signIn.email')}
          autoComplete="username"
          autoCapitalize="none"
          spellCheck={false}
          error={errors.email}
        />
        <PasswordField
          name="password"
          label={words('session.signIn.password')}
          autoComplete="current-password"
          error={errors.password}
        />
        <Button type="submit" tone="main" busy={signIn.isPending}>
          {signIn.isPending ? words('session.signIn.busy') : words('session.signIn.act')}
        </Button>
      </form>
      <p className="quiet">{words('session.signIn.noAccount')}</p>
    </div>
  )
}

function SecondFactorForm({ onDone }: { onDone: () => void }) {
  const words = useWords()
  const check = useSecondFactor()
  const errors = fieldErrors(check.error)

  function onSubmit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    check.mutate({ code: String(new FormData(event.currentTarget).get('code')).trim() }, { onSuccess: onDone })
  }

  return (
    <div className="stack">
      <PageHeading screen={words('session.code.title')} under={words('session.code.about')} failed={check.isError} />
      <form className="stack" onSubmit={onSubmit} noValidate aria-busy={check.isPending}>
        <FormErrors errors={errors} />
        <TextField
          name="code"
          label={words('session.code.label')}
          autoComplete="one-time-code"
          inputMode="text"
          autoFocus
          error={errors.code}
        />
        <Button type="submit" tone="main" busy={check.isPending}>
          {words('session.code.act')}
        </Button>
      </form>
    </div>
  )
}

function isCodeNeeded(error: unknown): boolean {
  return error instanceof ApiProblem && error.code === 'second-factor-needed'
}
