'use client'

import { useState, type FormEvent } from 'react'
import { fieldErrors } from './api-problem.ts'
import { checkForm, type Checked } from './checked.ts'

type Save<Value> = {
  readonly mutate: (value: Value, options?: { onSuccess?: () => void }) => void
  readonly error: unknown
  readonly isPending: boolean
}

/**
 * A form that is judged by the contract, then sent. Give `onSubmit` to the form and show `errors` (by field path, the
 * browser's and the server's alike). `read` turns the form into the body; typed text stays until it is stored.
 */
export function useCheckedSubmit<Value>({
  schema,
  read,
  save,
  onSaved,
}: {
  schema: () => Promise<{ readonly safeParse: (input: unknown) => Checked<Value> }>
  read: (form: FormData) => unknown
  save: Save<Value>
  onSaved?: () => void
}) {
  const [invalid, setInvalid] = useState<unknown>()
  async function submit(form: HTMLFormElement) {
    const checked = await checkForm(schema, read(new FormData(form)))
    setInvalid(checked.success ? undefined : checked.error)
    if (checked.success) save.mutate(checked.data, { onSuccess: onSaved })
  }
  return {
    errors: fieldErrors(invalid ?? save.error),
    onSubmit: (event: FormEvent<HTMLFormElement>) => {
      event.preventDefault()
      if (!save.isPending) void submit(event.currentTarget)
    },
  }
}
