'use client'

import { useQuery } from '@tanstack/react-query'
import { useEffect, useRef, useState } from 'react'
import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Loaded } from '#components/loaded.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { PasswordField, TextField } from '#components/text-field.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useWords } from '#lib/words.ts'
import { deviceQueries, useEndPin, useSetPin } from './device.queries.ts'
import { lockMinutes, readLockMinutes, writeLockMinutes } from './lock-setting.ts'

/** The PIN by which one comes back to a tablet that a shift shares, and after how long this one locks. */
export function PinPart() {
  const words = useWords()
  const pin = useQuery(deviceQueries.pin())
  return (
    <section className="stack narrow" aria-labelledby="pin">
      <h2 id="pin">{words('device.ownPin')}</h2>
      <p className="quiet prose">{words('device.ownPinAbout')}</p>
      <Loaded query={pin} what={words('device.ownPin')} height="8rem">
        {({ set }) => (
          <>
            <p>
              <StatusMark status={set ? 'current' : 'ended'}>
                {words(set ? 'device.pinSet' : 'device.pinNotSet')}
              </StatusMark>
            </p>
            <PinChange set={set} />
          </>
        )}
      </Loaded>
      <LockSetting />
    </section>
  )
}

function PinChange({ set }: { set: boolean }) {
  const words = useWords()
  const form = useRef<HTMLFormElement>(null)
  const save = useSetPin()
  const end = useEndPin()
  const errors = fieldErrors(save.error ?? end.error)
  const passwordOf = () => String(new FormData(form.current ?? undefined).get('password') ?? '')
  const clear = { onSuccess: () => form.current?.reset() }
  return (
    <form
      ref={form}
      className="stack"
      noValidate
      aria-busy={save.isPending || end.isPending}
      onSubmit={(event) => {
        event.preventDefault()
        end.reset()
        const given = new FormData(event.currentTarget)
        save.mutate({ password: passwordOf(), pin: String(given.get('pin')).trim() }, clear)
      }}
    >
      <FormErrors errors={errors} />
      <TextField
        name="pin"
        label={words('device.newPin')}
        hint={words('device.newPinHint')}
        type="password"
        inputMode="numeric"
        autoComplete="off"
        maxLength={8}
        error={errors.pin}
      />
      <PasswordField
        name="password"
        label={words('device.password')}
        autoComplete="current-password"
        error={errors.password}
      />
      <div className="row">
        <Button type="submit" busy={save.isPending}>
          {words(set ? 'device.changePin' : 'device.setPin')}
        </Button>
        {set && (
          <Button
            tone="quiet"
            busy={end.isPending}
            onClick={() => {
              save.reset()
              end.mutate({ password: passwordOf() }, clear)
            }}
          >
            {words('device.endPin')}
          </Button>
        )}
        <SaveState saving={savingOf(save)} />
      </div>
    </form>
  )
}

function LockSetting() {
  const words = useWords()
  const [minutes, setMinutes] = useState<number>()
  useEffect(() => setMinutes(readLockMinutes(localStorage)), [])
  return (
    <Select
      name="lockMinutes"
      label={words('device.lockAfter')}
      hint={words('device.lockAfterHint')}
      options={lockMinutes.map((value) => ({
        value: String(value),
        label: words('device.minutes', { minutes: value }),
      }))}
      value={String(minutes ?? '')}
      onChange={(event) => {
        writeLockMinutes(localStorage, Number(event.target.value))
        setMinutes(Number(event.target.value))
      }}
    />
  )
}
