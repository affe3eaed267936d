'use client'

import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button } from '#components/button.tsx'
import { RadioGroup } from '#components/choices.tsx'
import { DayField } from '#components/day-field.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea, TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useSearchParam } from '#lib/search-param.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { materialKinds, readKind } from './material-kinds.ts'
import { useCreateMaterial } from './materials.queries.ts'
import { ReceiptFields } from './receipt-fields.tsx'
import { atContainers, readReceipt } from './receipt-form.ts'

const fields = ['name', 'sourceName', 'supplier', 'lot'] as const

/** A sample as received. Its code is given by the laboratory when it is stored. */
export function NewMaterialScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const confirm = useConfirmation()
  const create = useCreateMaterial(lab.id)
  const [id] = useState(newId)
  const [wanted] = useSearchParam('kind')
  const [kind, setKind] = useState(readKind(wanted))
  const home = `/l/${lab.short}/materials`
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/materials').then(({ CreateMaterialSchema }) => CreateMaterialSchema),
    read: (form) => ({
      id,
      kind: form.get('kind'),
      ...Object.fromEntries(fields.map((name) => [name, String(form.get(name))])),
      receivedOn: String(form.get('receivedOn')),
      note: String(form.get('note')),
      receipt: readReceipt(form),
    }),
    save: create,
    onSaved: () => {
      confirm(words('materials.made'))
      router.push(home)
    },
  })
  const errors = atContainers(
    inFieldSentences(told, {
      kind: words('materials.needKind'),
      receivedOn: words('materials.needDay'),
      'receipt.containerCount': words('materials.needCount'),
    }),
  )
  return (
    <div className="stack narrow">
      <Breadcrumb trail={[{ href: home, label: words('materials.title') }]} />
      <PageHeading
        screen={words('materials.newTitle')}
        under={words('materials.newUnder')}
        failed={Object.keys(errors).length > 0}
      />
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={create.isPending}>
        <FormErrors errors={errors} />
        <RadioGroup
          name="kind"
          label={words('materials.kind')}
          defaultValue={kind}
          onValue={(value) => setKind(readKind(value))}
          error={errors.kind}
          choices={materialKinds.map((value) => ({ value, label: words(`materials.kind.${value}`) }))}
        />
        <TextField
          name="name"
          label={words('materials.name')}
          hint={words('materials.nameHint')}
          autoComplete="off"
          error={errors.name}
        />
        <TextField
          name="sourceName"
          label={words('materials.source')}
          hint={words('materials.sourceHint')}
          autoComplete="off"
          error={errors.sourceName}
        />
        <TextField name="supplier" label={words('materials.supplier')} autoComplete="off" error={errors.supplier} />
        <TextField
          name="lot"
          label={words('materials.lot')}
          hint={words('materials.lotHint')}
          autoComplete="off"
          error={errors.lot}
        />
        <DayField name="receivedOn" label={words('materials.receivedOn')} error={errors.receivedOn} />
        <ReceiptFields emulsion={kind === 'emulsion'} errors={errors} />
        <TextArea
          name="note"
          label={words('materials.note')}
          hint={words('materials.noteHint')}
          rows={3}
          error={errors.note}
        />
        <div className="row">
          <Button type="submit" tone="main" busy={create.isPending}>
            {words('materials.make')}
          </Button>
          <SaveState saving={savingOf(create)} />
        </div>
      </form>
    </div>
  )
}
