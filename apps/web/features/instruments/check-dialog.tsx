'use client'

import type { CheckBounds, InstrumentCheck } from '@curebook/contract/instrument-checks'
import { checksOfInstrument, checkUnits, type CheckKind } from '@curebook/contract/instrument-check-kinds'
import type { Instrument } from '@curebook/contract/instruments'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { RadioGroup } from '#components/choices.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { EventTimeField } from '#features/bench/event-time-field.tsx'
import { useEventTime } from '#features/bench/use-event-time.ts'
import { useSending } from '#features/bench/use-sending.ts'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useBoundsText } from './check-bounds.ts'
import { useAddCheck } from './upkeep.queries.ts'

/** Enters what a check read. The load of the wheel is judged by the edition; other checks by what is said here. */
export function CheckDialog({
  instrument,
  loadBounds,
  supersedes,
  last,
  onClose,
}: {
  instrument: Instrument
  loadBounds: CheckBounds | null
  supersedes: InstrumentCheck | undefined
  /** The last check that stands: its bounds are offered again. */
  last: InstrumentCheck | undefined
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const add = useAddCheck(lab.id, instrument.id)
  const time = useEventTime()
  const boundsText = useBoundsText()
  const sending = useSending(time, add)
  const kinds = supersedes ? [supersedes.kind] : (checksOfInstrument[instrument.kind] ?? [])
  const [kind, setKind] = useState<CheckKind>(kinds[0] ?? 'dimension')
  const usual = supersedes ?? (last?.kind === kind ? last : undefined)
  const units = checkUnits[kind]
  const [chosenUnit, setUnit] = useState<string>()
  const byEdition = kind === 'load' && loadBounds !== null
  const unit = byEdition
    ? loadBounds.unit
    : (units.find((one) => one === chosenUnit) ?? units.find((one) => one === usual?.bounds.unit) ?? units[0])
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/instrument-checks').then(({ AddCheckSchema }) => AddCheckSchema),
    read: (form) => ({
      time: sending.take()?.time,
      id: sending.id('check'),
      kind,
      typed: String(form.get('typed')),
      ...(byEdition
        ? {}
        : {
            bounds: {
              nominal: String(form.get('bounds.nominal')),
              tolerance: String(form.get('bounds.tolerance')),
              unit,
              source: String(form.get('bounds.source')),
            },
          }),
      reference: String(form.get('reference')).trim() || null,
      ...(supersedes === undefined
        ? {}
        : { supersedes: { id: supersedes.id, reason: String(form.get('supersedes.reason')) } }),
    }),
    save: add,
    onSaved: () => {
      confirm(words('instruments.checkStored', { code: instrument.code }))
      onClose()
    },
  })
  const errors = inFieldSentences(told, { time: words('bench.when.incomplete') })
  const mayBeNegative = kind === 'temperature'
  return (
    <Dialog title={words('instruments.checkOf', { code: instrument.code })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={add.isPending}>
        <FormErrors errors={errors} />
        {supersedes !== undefined && <p>{words('instruments.correctsCheck', { typed: supersedes.typed })}</p>}
        {kinds.length > 1 && (
          <RadioGroup
            name="kind"
            label={words('instruments.checked')}
            value={kind}
            onValue={(value) => setKind(value as CheckKind)}
            choices={kinds.map((value) => ({ value, label: words(`instruments.check.${value}`) }))}
            error={errors.kind}
          />
        )}
        {byEdition && <p>{words('instruments.loadBounds', { bounds: boundsText(loadBounds) })}</p>}
        {!byEdition && units.length > 1 && (
          <Select
            name="bounds.unit"
            label={words('instruments.checkUnit')}
            options={units.map((value) => ({ value, label: value }))}
            value={unit}
            onChange={(event) => setUnit(event.target.value)}
            error={errors['bounds.unit']}
          />
        )}
        <MeasureField
          name="typed"
          label={words('instruments.wasRead')}
          hint={byEdition ? words('instruments.loadHint') : undefined}
          quantity={words('instruments.whatWasRead')}
          unit={unit}
          mayBeNegative={mayBeNegative}
          error={errors.typed}
        />
        {!byEdition && (
          // Another kind has other bounds.
          <div className="stack" key={kind}>
            <MeasureField
              name="bounds.nominal"
              label={words('instruments.nominal')}
              quantity={words('instruments.theNominal')}
              unit={unit}
              mayBeNegative={mayBeNegative}
              error={errors['bounds.nominal']}
              defaultValue={usual?.bounds.nominal}
            />
            <MeasureField
              name="bounds.tolerance"
              label={words('instruments.tolerance')}
              quantity={words('instruments.theTolerance')}
              unit={unit}
              error={errors['bounds.tolerance']}
              defaultValue={usual?.bounds.tolerance}
            />
            <TextField
              name="bounds.source"
              label={words('instruments.boundsSource')}
              autoComplete="off"
              error={errors['bounds.source']}
              defaultValue={usual?.bounds.source}
            />
          </div>
        )}
        <TextField
          name="reference"
          label={words('instruments.reference')}
          hint={words('instruments.referenceHint')}
          autoComplete="off"
          error={errors.reference}
          defaultValue={usual?.reference ?? ''}
        />
        <EventTimeField time={time} />
        {supersedes !== undefined && (
          <TextField
            name="supersedes.reason"
            label={words('instruments.reasonOfCorrection')}
            autoComplete="off"
            error={errors['supersedes.reason'] ?? errors.supersedes}
          />
        )}
        <div className="row">
          <Button type="submit" tone="main" busy={add.isPending}>
            {words('instruments.addCheck')}
          </Button>
          <SaveState saving={savingOf(add)} />
        </div>
      </form>
    </Dialog>
  )
}
