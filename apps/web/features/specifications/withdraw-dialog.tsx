'use client'

import type { Specification } from '@curebook/contract/specifications'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea } from '#components/text-field.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { specificationQueries, useWithdrawSpecification } from './specifications.queries.ts'

/** Withdraws a specification with all its versions, with the reason. */
export function WithdrawDialog({ specification, onClose }: { specification: Specification; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const [id] = useState(newId)
  const { data: history } = useQuery(specificationQueries.one(lab.id, specification.id))
  const countOf = (what: 'projects' | 'designs') =>
    (history?.versions ?? []).reduce((sum, version) => sum + version[what], 0)
  const withdraw = useWithdrawSpecification(lab.id, specification.id)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () =>
      import('@curebook/contract/own-specifications').then(
        ({ WithdrawSpecificationSchema }) => WithdrawSpecificationSchema,
      ),
    read: (form) => ({ id, reason: String(form.get('reason') ?? '') }),
    save: withdraw,
    onSaved: onClose,
  })
  return (
    <Dialog title={words('specifications.withdrawTitle', { name: specification.name })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={withdraw.isPending}>
        <FormErrors errors={errors} />
        <p className="prose">{words('specifications.withdrawAbout')}</p>
        {history !== undefined && (
          <p className="prose">
            {words('specifications.withdrawKeep', { projects: countOf('projects'), designs: countOf('designs') })}
          </p>
        )}
        <TextArea name="reason" label={words('specifications.withdrawReason')} rows={2} error={errors.reason} />
        <div className="row">
          <Button type="submit" tone="main" busy={withdraw.isPending}>
            {words('specifications.withdraw')}
          </Button>
          <SaveState saving={savingOf(withdraw)} />
        </div>
      </form>
    </Dialog>
  )
}
