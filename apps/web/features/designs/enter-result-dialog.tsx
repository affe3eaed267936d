'use client'

import type { Design, EnteredResult } from '@curebook/contract/designs'
import { usualInputs } from '@curebook/trade/design/usual-inputs'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { RadioGroup } from '#components/choices.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea, TextField } from '#components/text-field.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { dayOf } from '#lib/laboratory-time.ts'
import { serverNow } from '#lib/server-clock.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useStanding } from '#lib/use-standing.ts'
import { useWords } from '#lib/words.ts'
import { withChoices } from './design-form-data.ts'
import { useEnterResult } from './designs.queries.ts'

const makers = ['entered', 'outside', 'customer'] as const

/** Enters a value, or replaces the one that stands, with a reason; the old one stays in the record. */
export function EnterResultDialog({
  design,
  resultKey: key,
  onClose,
}: {
  design: Design
  resultKey: EnteredResult['key']
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const enter = useEnterResult(lab.id, design)
  const [today] = useState(() => dayOf(serverNow(), lab.zone))
  const { id, standing } = useStanding(key === 'residue' ? design.residue : design.moisture, enter.error)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/designs').then(({ EnterResultSchema }) => EnterResultSchema),
    read: (form) => ({
      id,
      key,
      typed: String(form.get('typed')).trim(),
      unit: '%',
      source: String(form.get('source')),
      madeBy: form.get('madeBy') ?? undefined,
      observedOn: String(form.get('observedOn')),
      ...(standing === null
        ? {}
        : { supersedes: { id: standing.id, reason: String(form.get('supersedes.reason') ?? '') } }),
    }),
    save: enter,
    onSaved: onClose,
  })
  const errors = withChoices(told, { typed: words('designs.needValue'), observedOn: words('designs.needDay') })
  return (
    <Dialog title={words(standing === null ? `designs.enter.${key}` : `designs.correct.${key}`)} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={enter.isPending}>
        <FormErrors errors={errors} />
        {standing !== null && (
          <p>{words('designs.standing', { value: `${standing.typed} ${standing.unit}`, source: standing.source })}</p>
        )}
        <MeasureField
          name="typed"
          label={words(`designs.valueField.${key}`)}
          quantity={words(`designs.entered.${key}`)}
          unit="%"
          usual={usualInputs[key]}
          error={errors.typed}
        />
        <RadioGroup
          name="madeBy"
          label={words('designs.madeByField')}
          defaultValue={standing?.madeBy ?? undefined}
          choices={makers.map((value) => ({ value, label: words(`designs.madeBy.${value}`) }))}
          error={errors.madeBy}
        />
        <TextField
          name="source"
          label={words('designs.valueSource')}
          hint={words(`designs.valueSourceHint.${key}`)}
          autoComplete="off"
          error={errors.source}
        />
        <TextField
          name="observedOn"
          type="date"
          label={words('designs.observedOn')}
          defaultValue={today}
          error={errors.observedOn}
        />
        {standing !== null && (
          <TextArea
            name="supersedes.reason"
            label={words('designs.reason')}
            hint={words('designs.reasonHint')}
            error={errors['supersedes.reason']}
          />
        )}
        <div className="row">
          <Button type="submit" tone="main" busy={enter.isPending}>
            {words(standing === null ? 'designs.storeValue' : 'designs.replaceValue')}
          </Button>
          <SaveState saving={savingOf(enter)} />
        </div>
      </form>
    </Dialog>
  )
}
