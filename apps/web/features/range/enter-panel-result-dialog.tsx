'use client'

import type { Design } from '@curebook/contract/designs'
import type { MadeBy } from '@curebook/contract/made-by'
import type { PanelRow } from '@curebook/contract/range'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { RadioGroup } from '#components/choices.tsx'
import { DayField } from '#components/day-field.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextArea, TextField } from '#components/text-field.tsx'
import { AttachmentField } from '#features/attachments/attachment-field.tsx'
import { withChoices } from '#features/designs/design-form-data.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { dayOf } from '#lib/laboratory-time.ts'
import { newId } from '#lib/new-id.ts'
import { serverNow } from '#lib/server-clock.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { readPanelResultForm } from './panel-result-form.ts'
import { useEnterPanelResult } from './range.queries.ts'
import styles from './range.module.css'

const makers = ['entered', 'outside', 'customer'] as const satisfies readonly MadeBy[]

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
  const [{ id, today }] = useState(() => ({ id: newId(), today: dayOf(serverNow(), lab.zone) }))
  // A file has its own id: chosen anew, it is another file.
  const [chosen, setChosen] = useState<{ id: string; file: File } | null>(null)
  const standing = row.entered
  const [unit, setUnit] = useState(standing?.unit ?? units[0] ?? '')
  const [madeBy, setMadeBy] = useState<MadeBy>(standing?.madeBy ?? 'entered')
  const enter = useEnterPanelResult(lab.id, design, chosen)
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
        <RadioGroup
          name="madeBy"
          label={words('range.madeByField')}
          value={madeBy}
          onValue={(value) => setMadeBy(value as MadeBy)}
          choices={makers.map((value) => ({ value, label: words(`range.madeBy.${value}`) }))}
          error={errors.madeBy}
        />
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
        <MakerFields madeBy={madeBy} row={row} errors={errors} />
        <DayField
          name="observedOn"
          label={words('range.observedOnField')}
          defaultValue={standing?.observedOn ?? today}
          error={errors.observedOn}
        />
        <TextArea
          name="remark"
          label={words('range.remarkField')}
          defaultValue={standing?.remark}
          error={errors.remark}
        />
        <AttachmentField
          name="attachmentId"
          label={words('attachments.field')}
          hint={words('attachments.hint')}
          error={errors.attachmentId}
          onFile={(file) => setChosen(file && { id: newId(), file })}
        />
        {standing !== null && (
          <TextArea
            name="supersedes.reason"
            label={words('range.replaceWhy')}
            hint={words('range.replaceWhyHint')}
            error={errors['supersedes.reason']}
          />
        )}
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

/** By hand here: who and what it was read from. By others: whose paper it stands in. */
function MakerFields({
  madeBy,
  row: { entered },
  errors,
}: {
  madeBy: MadeBy
  row: PanelRow
  errors: Readonly<Record<string, string>>
}) {
  const words = useWords()
  const lab = useLaboratory()
  const field = (name: 'observedBy' | 'instrument' | 'laboratoryName' | 'source', label: string, initial = '') => (
    <TextField
      name={name}
      label={label}
      autoComplete="off"
      defaultValue={entered?.[name] ?? initial}
      error={errors[name]}
    />
  )
  const others = madeBy === 'customer' ? 'customer' : 'outside'
  // Both stay on the page: what was typed is there again when one changes one's mind.
  return (
    <>
      <div className={styles.pair} hidden={madeBy !== 'entered'}>
        {field('observedBy', words('range.observedByField'), lab.me.name)}
        {field('instrument', words('range.instrumentField'))}
      </div>
      <div className={styles.pair} hidden={madeBy === 'entered'}>
        {field('laboratoryName', words(`range.laboratoryField.${others}`))}
        {field('source', words(`range.paperField.${others}`))}
      </div>
    </>
  )
}
