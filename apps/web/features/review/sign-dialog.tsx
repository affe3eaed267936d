'use client'

import type { Design } from '@curebook/contract/designs'
import type { Review } from '@curebook/contract/review'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { PasswordField, TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useSign } from './review.queries.ts'
import styles from './review.module.css'

/** A signature: what it means, exactly what is signed, and the password again. Sent twice, it is the same signature. */
export function SignDialog({
  design,
  review,
  act,
  onClose,
}: {
  design: Design
  review: Review
  act: 'check' | 'approve'
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const now = act === 'check' ? review.workDigest : review.digest
  // What was shown when the dialog opened: a change behind it is told and never signed along.
  const [{ id, digest }] = useState(() => ({ id: newId(), digest: now }))
  const sign = useSign(lab.id, design, act)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/review').then(({ SignSchema }) => SignSchema),
    read: (form) => ({
      id,
      digest,
      password: String(form.get('password')),
      statement: String(form.get('statement')),
    }),
    save: sign,
    onSaved: () => {
      confirm(words(`review.signed.${act}`, { revision: review.revision }))
      onClose()
    },
  })
  return (
    <Dialog title={words(`review.${act}`, { revision: review.revision })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={sign.isPending}>
        <FormErrors errors={errors} />
        <div className="stack stack-tight">
          <p className="strong">{words(`review.meaning.${act}`)}</p>
          <p>{words('review.signedContent', { design: design.name, revision: review.revision })}</p>
          <p>
            <span className="quiet small">{words('review.digest')}</span>{' '}
            <span className={styles.digest} data-digest={act}>
              {digest}
            </span>
          </p>
          <p>{words('review.signsAs', { name: lab.me.name })}</p>
        </div>
        {now !== digest && (
          <p className="caution" role="alert">
            {words('review.contentChanged')}
          </p>
        )}
        <TextField
          name="statement"
          label={words('review.statement')}
          hint={words('review.statementHint')}
          autoComplete="off"
          error={errors.statement}
        />
        <PasswordField
          name="password"
          label={words('review.password')}
          hint={words('review.passwordHint')}
          autoComplete="current-password"
          error={errors.password}
        />
        <div className="row">
          <Button type="submit" tone="main" disabled={now !== digest} busy={sign.isPending}>
            {words(`review.sign.${act}`, { revision: review.revision })}
          </Button>
          <SaveState saving={savingOf(sign)} />
        </div>
      </form>
    </Dialog>
  )
}
