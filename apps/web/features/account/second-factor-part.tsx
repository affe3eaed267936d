'use client'

import type { SecondFactorSetup } from '@curebook/contract/session'
import { useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { CodeSquare } from '#components/code-square.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { PasswordField, TextField } from '#components/text-field.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useWords } from '#lib/words.ts'
import { useBeginSecondFactor, useConfirmSecondFactor, useEndSecondFactor } from './account.queries.ts'

export function SecondFactorPart({ isOn }: { isOn: boolean }) {
  const words = useWords()
  const [setup, setSetup] = useState<SecondFactorSetup>()
  return (
    <section className="stack narrow" aria-labelledby="second-factor">
      <h2 id="second-factor">{words('account.factor')}</h2>
      <p className="row">
        <StatusMark status={isOn ? 'current' : 'ended'}>
          {words(isOn ? 'account.factorOn' : 'account.factorOff')}
        </StatusMark>
        <span>{words('account.factorAbout')}</span>
      </p>
      {isOn ? (
        <EndForm />
      ) : setup === undefined ? (
        <BeginForm onSetup={setSetup} />
      ) : (
        <ConfirmForm setup={setup} onDone={() => setSetup(undefined)} />
      )}
    </section>
  )
}

function BeginForm({ onSetup }: { onSetup: (setup: SecondFactorSetup) => void }) {
  const words = useWords()
  const begin = useBeginSecondFactor()
  return (
    <PasswordAsk
      act={words('account.factorBegin')}
      busy={begin.isPending}
      error={begin.error}
      onPassword={(password) => begin.mutate({ password }, { onSuccess: onSetup })}
    />
  )
}

function EndForm() {
  const words = useWords()
  const end = useEndSecondFactor()
  return (
    <PasswordAsk
      act={words('account.factorEnd')}
      busy={end.isPending}
      error={end.error}
      onPassword={(password) => end.mutate({ password })}
    />
  )
}

function PasswordAsk({
  act,
  busy,
  error,
  onPassword,
}: {
  act: string
  busy: boolean
  error: unknown
  onPassword: (password: string) => void
}) {
  const words = useWords()
  const errors = fieldErrors(error)
  return (
    <form
      className="stack"
      noValidate
      aria-busy={busy}
      onSubmit={(event: FormEvent<HTMLFormElement>) => {
        event.preventDefault()
        onPassword(String(new FormData(event.currentTarget).get('password')))
      }}
    >
      <FormErrors errors={errors} />
      <PasswordField
        name="password"
        label={words('account.yourPassword')}
        autoComplete="current-password"
        error={errors.password}
      />
      <div>
        <Button type="submit" busy={busy}>
          {act}
        </Button>
      </div>
    </form>
  )
}

function ConfirmForm({ setup, onDone }: { setup: SecondFactorSetup; onDone: () => void }) {
  const words = useWords()
  const confirm = useConfirmSecondFactor()
  const errors = fieldErrors(confirm.error)
  const key = new URL(setup.uri).searchParams.get('secret') ?? setup.uri
  return (
    <form
      className="stack"
      noValidate
      aria-busy={confirm.isPending}
      onSubmit={(event) => {
        event.preventDefault()
        confirm.mutate({ code: String(new FormData(event.currentTarget).get('code')).trim() }, { onSuccess: onDone })
      }}
    >
      <FormErrors errors={errors} />
      <p>{words('account.factorKeyAbout')}</p>
      <CodeSquare square={setup.square} label={words('account.factorSquare')} />
      <TextField
        name="key"
        label={words('account.factorKey')}
        value={key.replace(/(.{4})/g, '$1 ').trim()}
        readOnly
        onFocus={(event) => event.target.select()}
      />
      <p>
        <a href={setup.uri}>{words('account.factorOpen')}</a>
      </p>
      <h3>{words('account.backup')}</h3>
      <p>{words('account.backupAbout')}</p>
      <ul
        className="plain-list columns reading"
        style={{ '--column': '9rem', gap: 'var(--gap-2)' } as React.CSSProperties}
      >
        {setup.backupCodes.map((code) => (
          <li key={code}>{code}</li>
        ))}
      </ul>
      <TextField name="code" label={words('account.factorCode')} autoComplete="one-time-code" error={errors.code} />
      <div>
        <Button type="submit" tone="main" busy={confirm.isPending}>
          {words('account.factorConfirm')}
        </Button>
      </div>
    </form>
  )
}
