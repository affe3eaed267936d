'use client'

import type { Item } from '@curebook/contract/custody'
import { useState } from 'react'
import { EventTimeField } from '#features/bench/event-time-field.tsx'
import { useEventTime } from '#features/bench/use-event-time.ts'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea, TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useRecordAct } from './custody.queries.ts'
import { SplitFields } from './split-fields.tsx'
import { errorsAtRows, piecesOf, previewOf, type SplitRow } from './split-rows.ts'
import { useCustodyAct } from './use-custody-act.ts'

const fresh = (): SplitRow => ({ key: newId(), count: '1', kind: 'bag', mass: '' })

/** Takes pieces off an item: how many of which mass, what was lost, and what is left as it was weighed. */
export function SplitDialog({ item, onClose }: { item: Item; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const record = useRecordAct(lab.id, item.id)
  const time = useEventTime()
  const sending = useCustodyAct(item, time, record)
  const [rows, setRows] = useState<readonly SplitRow[]>(() => [fresh()])
  const [masses, setMasses] = useState({ loss: '', left: '', weighed: '' })
  const { code, custody } = item
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/custody').then(({ RecordActSchema }) => RecordActSchema),
    read: (form) => {
      const given = (name: string) => String(form.get(name) ?? '').trim() || undefined
      return {
        ...sending.take(),
        kind: 'split',
        pieces: piecesOf(rows, (index) => sending.id(`piece ${index}`)),
        loss: given('loss'),
        left: given('left'),
        weighed: given('weighed'),
        fraction: given('fraction'),
        scalped: given('scalped'),
        note: given('note'),
      }
    },
    save: record,
    onSaved: () => {
      confirm(words('custody.done.split', { code }))
      onClose()
    },
  })
  const errors = errorsAtRows(
    rows,
    inFieldSentences(told, { time: words('custody.needTime'), pieces: words('custody.needPieces') }),
  )
  const measure = (name: keyof typeof masses, optional: boolean) => (
    <MeasureField
      name={name}
      label={words(`custody.${name}Field`)}
      hint={words(`custody.${name}Hint`)}
      quantity={words('custody.massShort')}
      unit="g"
      optional={optional}
      value={masses[name]}
      onValue={(typed) => setMasses((before) => ({ ...before, [name]: typed }))}
      error={errors[name]}
    />
  )
  return (
    <Dialog title={words('custody.ask.split', { code })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={record.isPending}>
        <FormErrors errors={errors} />
        {custody.massG === null && measure('weighed', false)}
        <SplitFields
          rows={rows}
          onRows={setRows}
          onAdd={() => setRows((before) => [...before, fresh()])}
          errors={errors}
        />
        {measure('loss', true)}
        {measure('left', true)}
        <Preview rows={rows} masses={masses} massG={custody.massG} />
        <TextField
          name="fraction"
          label={words('custody.fraction')}
          hint={words('custody.fractionHint')}
          autoComplete="off"
          error={errors.fraction}
        />
        <MeasureField
          name="scalped"
          label={words('custody.scalped')}
          hint={words('custody.scalpedHint')}
          quantity={words('custody.scalpedShort')}
          unit="%"
          optional
          error={errors.scalped}
        />
        <TextArea name="note" label={words('custody.note')} rows={2} error={errors.note} />
        <EventTimeField time={time} />
        <div className="row">
          <Button type="submit" tone="main" busy={record.isPending}>
            {words('custody.do.split')}
          </Button>
          <SaveState saving={savingOf(record)} />
        </div>
      </form>
    </Dialog>
  )
}

function Preview({
  rows,
  masses,
  massG,
}: {
  rows: readonly SplitRow[]
  masses: { readonly loss: string; readonly left: string; readonly weighed: string }
  massG: string | null
}) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const preview = previewOf({ rows, ...masses, massG })
  return (
    <output className="small">
      {preview === undefined
        ? ''
        : 'sentence' in preview
          ? preview.sentence
          : words('custody.wouldLeave', { mass: format.quantity(preview.leftG, 'g') })}
    </output>
  )
}
