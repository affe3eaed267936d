'use client'

import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { TextField } from '#components/text-field.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useWords } from '#lib/words.ts'

/** A PIN, typed on the tablet's own digits or a keyboard; Enter goes on. */
export function PinForm({
  button,
  busy,
  error,
  onPin,
}: {
  button: string
  busy: boolean
  error: unknown
  onPin: (pin: string) => void
}) {
  const words = useWords()
  const [pin, setPin] = useState('')
  const [short, setShort] = useState(false)
  const errors = fieldErrors(error)
  return (
    <form
      className="stack"
      noValidate
      aria-busy={busy}
      onSubmit={(event) => {
        event.preventDefault()
        setShort(!/^\d{4,8}$/.test(pin))
        if (!busy && /^\d{4,8}$/.test(pin)) onPin(pin)
      }}
    >
      <TextField
        name="pin"
        label={words('device.pin')}
        type="password"
        inputMode="numeric"
        autoComplete="off"
        autoFocus
        size="bench"
        maxLength={8}
        value={pin}
        onChange={(event) => setPin(event.target.value.replaceAll(/\D/g, ''))}
        error={short ? words('device.pinDigits') : (errors.pin ?? errors.form)}
      />
      <Button type="submit" tone="main" size="bench" busy={busy}>
        {button}
      </Button>
    </form>
  )
}
