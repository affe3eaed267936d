'use client'

import type { InstrumentLine } from '@curebook/contract/instrument-lines'
import type { Instrument } from '@curebook/contract/instruments'
import { baudRates, dataBits, parities, stopBits, usualLine, type LineSettings } from '@curebook/contract/line-settings'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useStanding } from '#lib/use-standing.ts'
import { useWords } from '#lib/words.ts'
import { LineFromBalance } from './line-from-balance.tsx'
import { LineVerdict } from './line-verdict.tsx'
import { useSetLine } from './upkeep.queries.ts'

type Settings = Omit<LineSettings, 'example' | 'shown'>

/** How a balance sends, from its own settings and one line of it; what the line teaches is said while one types. */
export function LineDialog({
  instrument,
  stands: opened,
  onClose,
}: {
  instrument: Instrument
  stands: InstrumentLine | undefined
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const save = useSetLine(lab.id, instrument.id)
  const { id, standing } = useStanding(opened ?? null, save.error)
  const [settings, setSettings] = useState<Settings>(opened ?? usualLine)
  const [example, setExample] = useState(opened?.example ?? '')
  const [shown, setShown] = useState(opened?.shown ?? '')
  const { baudRate, dataBits: bits, parity, stopBits: stops } = settings
  const { code } = instrument
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () =>
      import('@curebook/contract/instrument-lines').then(({ SetInstrumentLineSchema }) => SetInstrumentLineSchema),
    read: (form) => ({
      id,
      ...{ baudRate, dataBits: bits, parity, stopBits: stops, example, shown },
      ...(standing === null ? {} : { supersedes: { id: standing.id, reason: String(form.get('supersedes.reason')) } }),
    }),
    save,
    onSaved: () => {
      confirm(words('instruments.lineStored', { code }))
      onClose()
    },
  })
  const numbers = (values: readonly number[]) => values.map((value) => ({ value: String(value), label: String(value) }))
  const change = (part: object) => setSettings((before) => ({ ...before, ...part }))
  return (
    <Dialog title={words('instruments.lineOf', { code })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={save.isPending}>
        <FormErrors errors={errors} />
        <p className="quiet">{words('instruments.lineRead')}</p>
        <div className="row">
          <Select
            name="baudRate"
            label={words('instruments.baudRate')}
            error={errors.baudRate}
            options={numbers(baudRates)}
            value={String(baudRate)}
            onChange={(event) => change({ baudRate: Number(event.target.value) })}
          />
          <Select
            name="dataBits"
            label={words('instruments.dataBits')}
            error={errors.dataBits}
            options={numbers(dataBits)}
            value={String(bits)}
            onChange={(event) => change({ dataBits: Number(event.target.value) })}
          />
          <Select
            name="parity"
            label={words('instruments.parity')}
            error={errors.parity}
            options={parities.map((value) => ({ value, label: words(`instruments.parity.${value}`) }))}
            value={parity}
            onChange={(event) => change({ parity: event.target.value })}
          />
          <Select
            name="stopBits"
            label={words('instruments.stopBits')}
            error={errors.stopBits}
            options={numbers(stopBits)}
            value={String(stops)}
            onChange={(event) => change({ stopBits: Number(event.target.value) })}
          />
        </div>
        <LineFromBalance settings={settings} onLine={setExample} />
        <TextField
          name="example"
          label={words('instruments.lineExample')}
          hint={words('instruments.lineExampleHint')}
          autoComplete="off"
          spellCheck={false}
          error={errors.example}
          value={example}
          onChange={(event) => setExample(event.target.value)}
        />
        <TextField
          name="shown"
          label={words('instruments.lineShown')}
          hint={words('instruments.lineShownHint')}
          inputMode="decimal"
          autoComplete="off"
          error={errors.shown}
          value={shown}
          onChange={(event) => setShown(event.target.value)}
        />
        <LineVerdict example={example} shown={shown} />
        {standing !== null && (
          <TextField
            name="supersedes.reason"
            label={words('instruments.lineReason')}
            autoComplete="off"
            error={errors['supersedes.reason'] ?? errors.supersedes}
          />
        )}
        <div className="row">
          <Button type="submit" tone="main" busy={save.isPending}>
            {words('instruments.storeLine')}
          </Button>
          <SaveState saving={savingOf(save)} />
        </div>
      </form>
    </Dialog>
  )
}
