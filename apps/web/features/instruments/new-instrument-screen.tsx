'use client'

import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { InstrumentFields, readInstrumentFields } from './instrument-fields.tsx'
import { instrumentKinds } from './instrument-facts.ts'
import { useCreateInstrument } from './instruments.queries.ts'

/** An instrument by size and use; its factors and calibrations are entered on its page. */
export function NewInstrumentScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const create = useCreateInstrument(lab.id)
  const [id] = useState(newId)
  const [kind, setKind] = useState('')
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/instruments').then(({ CreateInstrumentSchema }) => CreateInstrumentSchema),
    read: (form) => readInstrument(id, form),
    save: create,
    onSaved: () => router.push(`/l/${lab.short}/instruments/${id}`),
  })
  const errors = inFieldSentences(told, { kind: words('instruments.needKind') })
  return (
    <div className="stack narrow">
      <Breadcrumb trail={[{ href: `/l/${lab.short}/instruments`, label: words('instruments.title') }]} />
      <PageHeading screen={words('instruments.newTitle')} failed={Object.keys(errors).length > 0} />
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={create.isPending}>
        <FormErrors errors={errors} />
        <Select
          name="kind"
          label={words('instruments.kind')}
          prompt={words('instruments.chooseKind')}
          value={kind}
          onChange={(event) => setKind(event.target.value)}
          options={instrumentKinds.map((value) => ({ value, label: words(`instruments.kind.${value}`) }))}
          error={errors.kind}
        />
        <TextField
          name="code"
          label={words('instruments.code')}
          hint={words('instruments.codeHint')}
          autoComplete="off"
          error={errors.code}
        />
        <InstrumentFields kind={kind} errors={errors} />
        <div className="row">
          <Button type="submit" tone="main" busy={create.isPending}>
            {words('instruments.make')}
          </Button>
          <SaveState saving={savingOf(create)} />
        </div>
      </form>
    </div>
  )
}

function readInstrument(id: string, form: FormData) {
  const text = (name: string) => String(form.get(name) ?? '').trim()
  return { id, code: text('code'), kind: text('kind'), ...readInstrumentFields(form) }
}
