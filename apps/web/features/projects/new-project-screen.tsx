'use client'

import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button } from '#components/button.tsx'
import { RadioGroup } from '#components/choices.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextArea, TextField } from '#components/text-field.tsx'
import { clientQueries } from '#features/clients/clients.queries.ts'
import { NewClientDialog } from '#features/clients/new-client-dialog.tsx'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useCreateProject } from './projects.queries.ts'

const kinds = ['full', 'verification'] as const

/** A project begins with a client, a name and the kind of job. */
export function NewProjectScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const create = useCreateProject(lab.id)
  const [id] = useState(newId)
  const [clientId, setClientId] = useState('')
  const [enteringClient, setEnteringClient] = useState(false)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/projects').then(({ CreateProjectSchema }) => CreateProjectSchema),
    read: (form) => ({
      id,
      clientId,
      name: String(form.get('name')),
      kind: form.get('kind'),
      reportTo: String(form.get('reportTo')),
      copiesTo: String(form.get('copiesTo')),
    }),
    save: create,
    onSaved: () => router.push(`/l/${lab.short}/projects/${id}`),
  })
  const errors = inFieldSentences(told, { clientId: words('projects.needClient'), kind: words('projects.needKind') })
  return (
    <div className="stack narrow">
      <Breadcrumb trail={[{ href: `/l/${lab.short}/projects`, label: words('projects.title') }]} />
      <PageHeading screen={words('projects.newTitle')} failed={Object.keys(errors).length > 0} />
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={create.isPending}>
        <FormErrors errors={errors} />
        <ClientField
          value={clientId}
          onValue={setClientId}
          error={errors.clientId}
          onEnter={lab.may('client:create') ? () => setEnteringClient(true) : undefined}
        />
        <TextField
          name="name"
          label={words('projects.name')}
          hint={words('projects.nameHint')}
          autoComplete="off"
          error={errors.name}
        />
        <RadioGroup
          name="kind"
          label={words('projects.kind')}
          defaultValue="full"
          error={errors.kind}
          choices={kinds.map((value) => ({
            value,
            label: words(`projects.kind.${value}`),
            hint: words(`projects.kindHint.${value}`),
          }))}
        />
        <TextArea
          name="reportTo"
          label={words('projects.reportTo')}
          hint={words('projects.reportToHint')}
          rows={2}
          error={errors.reportTo}
        />
        <TextArea
          name="copiesTo"
          label={words('projects.copiesTo')}
          hint={words('projects.copiesToHint')}
          rows={2}
          error={errors.copiesTo}
        />
        <div className="row">
          <Button type="submit" tone="main" busy={create.isPending}>
            {words('projects.make')}
          </Button>
          <SaveState saving={savingOf(create)} />
        </div>
      </form>
      {enteringClient && (
        <NewClientDialog onMade={(client) => setClientId(client.id)} onClose={() => setEnteringClient(false)} />
      )}
    </div>
  )
}

function ClientField({
  value,
  onValue,
  error,
  onEnter,
}: {
  value: string
  onValue: (id: string) => void
  error?: string
  onEnter?: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const clients = useQuery(clientQueries.list(lab.id))
  const options = (clients.data?.items ?? []).map(({ id, name }) => ({ value: id, label: name }))
  return (
    <div className="stack stack-tight">
      <Select
        name="clientId"
        label={words('projects.client')}
        prompt={words('projects.chooseClient')}
        options={options}
        value={options.some((option) => option.value === value) ? value : ''}
        onChange={(event) => onValue(event.target.value)}
        error={error ?? (clients.isError ? clients.error.message : undefined)}
      />
      {onEnter !== undefined && (
        <div>
          <Button size="small" onClick={onEnter}>
            {words('projects.enterClient')}
          </Button>
        </div>
      )}
    </div>
  )
}
