'use client'

import type { Instrument } from '@curebook/contract/instruments'
import type { PartKind } from '@curebook/contract/machine-parts'
import type { PartFitting } from '@curebook/contract/parts'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { EventTimeField } from '#features/bench/event-time-field.tsx'
import { useEventTime } from '#features/bench/use-event-time.ts'
import { useSending } from '#features/bench/use-sending.ts'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useFitPart } from './upkeep.queries.ts'

/** A lot goes on a machine, or an entry in error is corrected with the reason. */
export function FitPartDialog({
  instrument,
  kind,
  supersedes,
  onClose,
}: {
  instrument: Instrument
  kind: PartKind
  supersedes: PartFitting | undefined
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const fit = useFitPart(lab.id, instrument.id)
  const time = useEventTime()
  const sending = useSending(time, fit)
  const { code } = instrument
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/parts').then(({ FitPartSchema }) => FitPartSchema),
    read: (form) => ({
      time: sending.take()?.time,
      id: sending.id('fitting'),
      kind,
      lot: String(form.get('lot')),
      hardness: String(form.get('hardness')).trim() === '' ? null : String(form.get('hardness')),
      ...(supersedes === undefined
        ? {}
        : { supersedes: { id: supersedes.id, reason: String(form.get('supersedes.reason')) } }),
    }),
    save: fit,
    onSaved: () => {
      confirm(words('instruments.fitted', { code }))
      onClose()
    },
  })
  const errors = inFieldSentences(told, { time: words('bench.when.incomplete') })
  return (
    <Dialog title={words(`instruments.fitOn.${kind}`, { code })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={fit.isPending}>
        <FormErrors errors={errors} />
        {supersedes !== undefined && <p>{words('instruments.correctsLot', { lot: supersedes.lot })}</p>}
        <TextField
          name="lot"
          label={words('instruments.lot')}
          hint={words('instruments.lotHint')}
          autoComplete="off"
          error={errors.lot}
          defaultValue={supersedes?.lot}
        />
        <MeasureField
          name="hardness"
          label={words('instruments.hardness')}
          hint={words('instruments.hardnessHint')}
          quantity={words('instruments.hardnessShort')}
          optional
          error={errors.hardness}
          defaultValue={supersedes?.hardness ?? ''}
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
          <Button type="submit" tone="main" busy={fit.isPending}>
            {words(`instruments.fit.${kind}`)}
          </Button>
          <SaveState saving={savingOf(fit)} />
        </div>
      </form>
    </Dialog>
  )
}
