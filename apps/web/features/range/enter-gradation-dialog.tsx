'use client'

import type { Design } from '@curebook/contract/designs'
import type { Gradation } from '@curebook/contract/gradations'
import type { MadeBy } from '@curebook/contract/made-by'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea, TextField } from '#components/text-field.tsx'
import { AttachmentField } from '#features/attachments/attachment-field.tsx'
import { withChoices } from '#features/designs/design-form-data.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { dayOf } from '#lib/laboratory-time.ts'
import { newId } from '#lib/new-id.ts'
import { serverNow } from '#lib/server-clock.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useStanding } from '#lib/use-standing.ts'
import { useWords } from '#lib/words.ts'
import { atSieves, readGradationForm, writeSieves } from './gradation-form.ts'
import { FoundFields, MakerChoice, MakerFields, ReplaceReason } from './maker-fields.tsx'
import { useEnterGradation } from './range.queries.ts'
import styles from './range.module.css'

/** Enters the gradation as it was found, typed or as a file, or replaces it with a reason; the old one stays in the record. */
export function EnterGradationDialog({
  design,
  standing: opened,
  onClose,
}: {
  design: Design
  standing: Gradation | null
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const [today] = useState(() => dayOf(serverNow(), lab.zone))
  const [chosen, setChosen] = useState<{ id: string; file: File } | null>(null)
  const [madeBy, setMadeBy] = useState<MadeBy>(opened?.madeBy ?? 'entered')
  const enter = useEnterGradation(lab.id, design, chosen)
  const { id, standing } = useStanding(opened, enter.error)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/gradations').then(({ EnterGradationSchema }) => EnterGradationSchema),
    read: (form) => readGradationForm(form, { id, madeBy, fileId: chosen?.id ?? null, standing }),
    save: enter,
    onSaved: onClose,
  })
  const errors = atSieves(withChoices(told, { observedOn: words('range.needObservedOn') }))
  const field = (name: 'method' | 'edition', label: string) => (
    <TextField name={name} label={label} autoComplete="off" defaultValue={standing?.[name]} error={errors[name]} />
  )
  return (
    <Dialog title={words(standing === null ? 'range.gradationEnter' : 'range.gradationReplace')} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={enter.isPending}>
        <FormErrors errors={errors} />
        <TextArea
          name="sieves"
          label={words('range.sievesField')}
          hint={words('range.sievesHint')}
          rows={9}
          defaultValue={standing === null ? '' : writeSieves(standing.sieves)}
          error={errors.sieves}
        />
        <AttachmentField
          name="attachmentId"
          label={words('attachments.field')}
          hint={words('attachments.hint')}
          error={errors.attachmentId}
          onFile={(file) => setChosen(file && { id: newId(), file })}
        />
        <MakerChoice madeBy={madeBy} onMadeBy={setMadeBy} error={errors.madeBy} />
        <div className={styles.pair}>
          {field('method', words('range.methodField'))}
          {field('edition', words('range.editionField'))}
        </div>
        <MakerFields madeBy={madeBy} standing={standing} errors={errors} />
        <FoundFields standing={standing} today={today} errors={errors} />
        {standing !== null && <ReplaceReason errors={errors} />}
        <div className="row">
          <Button type="submit" tone="main" busy={enter.isPending}>
            {words('range.gradationStore')}
          </Button>
          <SaveState saving={savingOf(enter)} />
        </div>
      </form>
    </Dialog>
  )
}
