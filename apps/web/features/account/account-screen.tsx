'use client'

import { useQuery } from '@tanstack/react-query'
import { useRef } from 'react'
import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { PasswordField } from '#components/text-field.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { PinPart } from '#features/device/pin-part.tsx'
import { TabletPart } from '#features/device/tablet-part.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { sessionQueries } from '#lib/session.queries.ts'
import { useWords } from '#lib/words.ts'
import { useChangePassword } from './account.queries.ts'
import { Devices } from './devices.tsx'
import { MailPart } from './mail-part.tsx'
import { SecondFactorPart } from './second-factor-part.tsx'

export function AccountScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const session = useQuery(sessionQueries.current())
  return (
    <div className="stack stack-wide" style={{ maxWidth: '60rem' }}>
      <PageHeading screen={words('account.title')} under={words('account.about')} />
      <Loaded query={session} what={words('account.what')}>
        {({ account }) => (
          <>
            <dl className="facts">
              <div>
                <dt>{words('account.name')}</dt>
                <dd>{account.name}</dd>
              </div>
              <div>
                <dt>{words('account.email')}</dt>
                <dd>{account.email}</dd>
              </div>
            </dl>
            <PasswordPart email={account.email} />
            {/* A client never stands at a bench, and nobody comes back by PIN who may not change person. */}
            {lab.may('device:switch') && <PinPart />}
            {lab.may('bench:read') && (
              <section className="stack" aria-labelledby="tablet">
                <h2 id="tablet">{words('device.tablet')}</h2>
                <TabletPart />
              </section>
            )}
            <SecondFactorPart isOn={account.secondFactor} />
            {lab.may('mail-wish:set-own') && <MailPart />}
            <Devices />
          </>
        )}
      </Loaded>
    </div>
  )
}

function PasswordPart({ email }: { email: string }) {
  const words = useWords()
  const form = useRef<HTMLFormElement>(null)
  const change = useChangePassword()
  const errors = fieldErrors(change.error)
  return (
    <section className="stack narrow" aria-labelledby="password">
      <h2 id="password">{words('account.password')}</h2>
      <form
        ref={form}
        className="stack"
        noValidate
        aria-busy={change.isPending}
        onSubmit={(event) => {
          event.preventDefault()
          const given = new FormData(event.currentTarget)
          change.mutate(
            { current: String(given.get('current')), next: String(given.get('next')) },
            { onSuccess: () => form.current?.reset() },
          )
        }}
      >
        <FormErrors errors={errors} />
        <input type="text" name="username" autoComplete="username" defaultValue={email} hidden readOnly />
        <PasswordField
          name="current"
          label={words('account.currentPassword')}
          autoComplete="current-password"
          error={errors.current}
        />
        <PasswordField
          name="next"
          label={words('account.nextPassword')}
          hint={words('account.passwordHint')}
          autoComplete="new-password"
          error={errors.next}
        />
        <div className="row">
          <Button type="submit" busy={change.isPending}>
            {words('account.changePassword')}
          </Button>
          <SaveState saving={savingOf(change)} />
        </div>
      </form>
    </section>
  )
}
