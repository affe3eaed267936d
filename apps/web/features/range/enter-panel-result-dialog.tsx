'use client'

import type { Design } from '@curebook/contract/designs'
import type { MadeBy } from '@curebook/contract/made-by'
import type { PanelRow } from '@curebook/contract/range'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { AttachmentField } from '#features/attachments/attachment-field.tsx'
import { withChoices } from '#features/designs/design-form-data.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { dayOf } from '#lib/laboratory-time.ts'
import { newId } from '#lib/new-id.ts'
import { serverNow } from '#lib/server-clock.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useStanding } from '#lib/use-standing.ts'
import { useWords } from '#lib/words.ts'
import { FoundFields, MakerChoice, MakerFields, ReplaceReason } from './maker-fields.tsx'
import { readPanelResultForm } from './panel-result-form.ts'
import { useEnterPanelResult } from './range.queries.ts'
import styles from './range.module.css'

/** Enters a result that no method here computes, or replaces it with a reason; the old one stays in the record. */
export function EnterPanelResultDialog({
  design,
  row,
  units,
  onClose,
}: {
  design: Design
  row: PanelRow
  units: readonly string[]
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const [today] = useState(() => dayOf(serverNow(), lab.zone))
  // A file has its own id: chosen anew, it is another file.
  const [chosen, setChosen] = useState<{ id: string; file: File } | null>(null)
  const opened = row.entered ?? row.beside
  const [unit, setUnit] = useState(opened?.unit ?? units[0] ?? '')
  const [madeBy, setMadeBy] = useState<MadeBy>(opened?.madeBy ?? 'entered')
  const enter = useEnterPanelResult(lab.id, design, chosen)
  const { id, standing } = useStanding(opened, enter.error)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () =>
      import('@curebook/contract/panel-results').then(({ EnterPanelResultSchema }) => EnterPanelResultSchema),
    read: (form) =>
      readPanelResultForm(form, { id, limitKey: row.key, unit, madeBy, fileId: chosen?.id ?? null, standing }),
    save: enter,
    onSaved: onClose,
  })
  const errors = withChoices(told, {
    typed: words('range.needTyped'),
    observedOn: words('range.needObservedOn'),
    atEmulsionPercent: words('range.needAtContent'),
  })
  return (
    <Dialog
      title={words(standing === null ? 'range.enterTitle' : 'range.replaceTitle', { label: row.label })}
      onClose={onClose}
    >
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={enter.isPending}>
        <FormErrors errors={errors} />
        <p>
          {words('range.enterLimit', { limit: row.limit })}{' '}
          {standing !== null && words('range.enterStanding', { value: `${standing.typed} ${standing.unit}` })}
        </p>
        <div className={units.length > 1 ? styles.pair : undefined}>
          <MeasureField
            name="typed"
            label={words('range.typedField', { label: row.label, unit })}
            quantity={row.label}
            unit={unit}
            error={errors.typed}
          />
          {units.length > 1 && (
            <Select
              name="unit"
              label={words('range.unitField')}
              value={unit}
              onChange={(event) => setUnit(event.currentTarget.value)}
              options={units.map((one) => ({ value: one, label: one }))}
              error={errors.unit}
            />
          )}
        </div>
        <MeasureField
          name="atEmulsionPercent"
          label={words('range.atContentField')}
          hint={words('range.atContentHint')}
          quantity={words('range.emulsionShort')}
          unit="%"
          optional
          defaultValue={standing?.atEmulsionPercent ?? ''}
          error={errors.atEmulsionPercent}
        />
        <MakerChoice madeBy={madeBy} onMadeBy={setMadeBy} error={errors.madeBy} />
        <div className={styles.pair}>
          <TextField
            name="method"
            label={words('range.methodField')}
            hint={words('range.methodHint')}
            autoComplete="off"
            defaultValue={standing?.method}
            error={errors.method}
          />
          <TextField
            name="edition"
            label={words('range.editionField')}
            hint={words('range.editionHint')}
            autoComplete="off"
            defaultValue={standing?.edition}
            error={errors.edition}
          />
        </div>
        <MakerFields madeBy={madeBy} standing={row.entered} errors={errors} withInstrument />
        <FoundFields standing={standing} today={today} errors={errors} />
        <AttachmentField
          name="attachmentId"
          label={words('attachments.field')}
          hint={words('attachments.hint')}
          error={errors.attachmentId}
          onFile={(file) => setChosen(file && { id: newId(), file })}
        />
        {standing !== null && <ReplaceReason errors={errors} />}
        <div className="row">
          <Button type="submit" tone="main" busy={enter.isPending}>
            {words(standing === null ? 'range.storeEntered' : 'range.replaceEntered')}
          </Button>
          <SaveState saving={savingOf(enter)} />
        </div>
      </form>
    </Dialog>
  )
}
