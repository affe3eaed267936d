'use client'

import type { ReactNode } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea } from '#components/text-field.tsx'
import type { useCheckedSubmit } from '#lib/use-checked-submit.ts'

type Checked = ReturnType<typeof useCheckedSubmit>

/** One text to be written: a question, or its answer. It stays as typed until it is stored. */
export function WriteDialog({
  title,
  label,
  hint,
  send,
  save,
  checked: { errors, onSubmit },
  onClose,
  children,
}: {
  title: string
  label: string
  hint: string
  send: string
  save: Parameters<typeof savingOf>[0] & { readonly isPending: boolean }
  checked: Checked
  onClose: () => void
  children?: ReactNode
}) {
  return (
    <Dialog title={title} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={save.isPending}>
        <FormErrors errors={errors} />
        {children}
        <TextArea name="text" label={label} hint={hint} rows={4} error={errors.text} />
        <div className="row">
          <Button type="submit" tone="main" busy={save.isPending}>
            {send}
          </Button>
          <SaveState saving={savingOf(save)} />
        </div>
      </form>
    </Dialog>
  )
}
