'use client'

import { useQuery } from '@tanstack/react-query'
import { useEffect, useRef, useState } from 'react'
import { createPortal } from 'react-dom'
import { Button } from '#components/button.tsx'
import { PasswordField } from '#components/text-field.tsx'
import { ApiProblem, fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { deviceQueries, useUnlock } from './device.queries.ts'
import { PeopleChoice } from './people-choice.tsx'
import { PinForm } from './pin-form.tsx'
import styles from './device.module.css'

/** The locked screen: the PIN or the password of whoever is signed in, or another person's PIN. Esc does not close it. */
export function LockDialog({ onUnlock }: { onUnlock: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const people = useQuery(deviceQueries.people(lab.id))
  const dialog = useRef<HTMLDialogElement>(null)
  const [byPassword, setByPassword] = useState(false)
  const show = () => {
    if (dialog.current?.open === false) dialog.current.showModal()
  }
  useEffect(show, [])
  const ownPin = people.data?.ownPin === true && !byPassword
  return createPortal(
    <dialog
      ref={dialog}
      className={styles.lock}
      aria-labelledby="locked"
      // A dialog of the page beneath leaves this one to itself.
      data-react-aria-top-layer="true"
      onCancel={(event) => event.preventDefault()}
      onClose={show}
    >
      <div className={styles.lockInside}>
        <h2 id="locked">{words('device.locked', { name: lab.me.name })}</h2>
        <p>{words('device.lockedAbout')}</p>
        {ownPin ? <OwnPin onUnlock={onUnlock} /> : <OwnPassword onUnlock={onUnlock} />}
        {people.data?.ownPin === true && (
          <Button tone="quiet" onClick={() => setByPassword(!byPassword)}>
            {words(byPassword ? 'device.usePin' : 'device.usePassword')}
          </Button>
        )}
        {(people.data?.people.some(({ current }) => !current) ?? false) && (
          <>
            <h3>{words('device.orAnother')}</h3>
            <p>{words('device.lost', { name: lab.me.name })}</p>
            <PeopleChoice people={people.data?.people ?? []} />
          </>
        )}
      </div>
    </dialog>,
    document.body,
  )
}

function OwnPin({ onUnlock }: { onUnlock: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const unlock = useUnlock(lab.me.membershipId)
  return (
    <PinForm
      button={words('device.unlock')}
      busy={unlock.isPending}
      error={unlock.error}
      onPin={(pin) => unlock.mutate({ pin }, { onSuccess: onUnlock })}
    />
  )
}

function OwnPassword({ onUnlock }: { onUnlock: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const unlock = useUnlock(lab.me.membershipId)
  const errors = fieldErrors(unlock.error)
  const ended = unlock.error instanceof ApiProblem && unlock.error.code === 'not-signed-in'
  return (
    <form
      className="stack"
      noValidate
      aria-busy={unlock.isPending}
      onSubmit={(event) => {
        event.preventDefault()
        unlock.mutate({ password: String(new FormData(event.currentTarget).get('password')) }, { onSuccess: onUnlock })
      }}
    >
      <PasswordField
        name="password"
        label={words('device.password')}
        autoComplete="current-password"
        autoFocus
        error={errors.password ?? (ended ? undefined : errors.form)}
      />
      {ended && (
        <p role="alert">
          {words('device.ended')}{' '}
          <a href="/sign-in" target="_blank" rel="opener">
            {words('device.signInThere')}
          </a>
        </p>
      )}
      <Button type="submit" tone="main" size="bench" busy={unlock.isPending}>
        {words('device.unlock')}
      </Button>
    </form>
  )
}
