'use client'

import type { Edition } from '@curebook/contract/methods'
import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button } from '#components/button.tsx'
import { DayField } from '#components/day-field.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { ApiProblem } from '#lib/api-problem.ts'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useSearchParam } from '#lib/search-param.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { BoundFields } from './bound-fields.tsx'
import { readEditionForm } from './edition-form.ts'
import { boundsOf, editionsToCopy, editionToChange } from './editions.ts'
import { methodQueries, useCreateEdition, type Method } from './methods.queries.ts'

/** A laboratory's own edition: one bound or more changed, each with its source; tests made before keep theirs. */
export function ChangeBoundScreen({ methodKey }: { methodKey: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(methodQueries.one(lab.id, methodKey))
  const [named, setNamed] = useSearchParam('edition')
  const home = `/l/${lab.short}/methods`
  return (
    <div className="stack">
      <Breadcrumb
        trail={[
          { href: home, label: words('methods.title') },
          { href: `${home}/${methodKey}`, label: query.data?.name ?? words('methods.thisOne') },
        ]}
      />
      <PageHeading
        screen={words('methods.changeBound')}
        thing={query.data && words('methods.changeTitle', { name: query.data.name })}
      />
      {lab.may('method:edit') ? (
        <Loaded query={query} what={words('methods.thisOne')} height="24rem">
          {(method) => {
            const edition = editionToChange(method.editions, named)
            return edition === undefined ? (
              <EmptyState title={words('methods.noneInForce')} />
            ) : (
              <ChangeForm method={method} edition={edition} onStartFrom={(id) => setNamed(id)} />
            )
          }}
        </Loaded>
      ) : (
        <EmptyState title={words('methods.notAllowed')}>{words('methods.notAllowedMore')}</EmptyState>
      )}
    </div>
  )
}

function ChangeForm({
  method,
  edition,
  onStartFrom,
}: {
  method: Method
  edition: Edition
  onStartFrom: (id: string) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const create = useCreateEdition(lab.id, method.key)
  const [id] = useState(newId)
  const [first] = useSearchParam('bound')
  const [keys, setKeys] = useState<readonly string[]>(() => (first in edition.parameters ? [first] : []))
  const bounds = boundsOf(edition, method.builtIn)
  const chosen = keys.flatMap((key) => bounds.find((bound) => bound.key === key) ?? [])
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/methods').then(({ CreateEditionSchema }) => CreateEditionSchema),
    read: (form) => readEditionForm(form, { id, copiedFrom: edition.id, bounds: chosen }),
    save: create,
    onSaved: () => router.push(`/l/${lab.short}/methods/${method.key}?edition=${id}`),
  })
  const errors = inFieldSentences(told, { effectiveFrom: words('methods.needDay') })
  return (
    <form className="stack" noValidate onSubmit={onSubmit} aria-busy={create.isPending}>
      <FormErrors errors={errors} />
      <NewerEdition error={create.error} shown={edition} onStartFrom={onStartFrom} />
      <StartingFrom method={method} edition={edition} onStartFrom={onStartFrom} />
      {chosen.map((bound, index) => (
        <BoundFields
          key={bound.key}
          bound={bound}
          builtIn={method.builtIn[edition.editionKey]?.[bound.key]}
          index={index}
          errors={errors}
          onTakeOff={() => setKeys(keys.filter((key) => key !== bound.key))}
        />
      ))}
      <div className="narrow stack">
        <Select
          name="changes"
          label={words(chosen.length === 0 ? 'methods.whichBound' : 'methods.anotherBound')}
          hint={chosen.length === 0 && !edition.inForce ? words('methods.asItStands') : undefined}
          prompt={words('methods.chooseBound')}
          value=""
          onChange={(event) => event.target.value !== '' && setKeys([...keys, event.target.value])}
          options={bounds.filter(({ key }) => !keys.includes(key)).map(({ key, label }) => ({ value: key, label }))}
          error={errors.changes}
        />
        <DayField
          name="effectiveFrom"
          label={words('methods.from')}
          hint={words('methods.fromHint')}
          error={errors.effectiveFrom}
        />
        <TextField name="reason" label={words('methods.reason')} autoComplete="off" error={errors.reason} />
      </div>
      <div className="row">
        <Button type="submit" tone="main" busy={create.isPending}>
          {words('methods.make')}
        </Button>
        <SaveState saving={savingOf(create)} />
      </div>
    </form>
  )
}

/** Which edition is copied: the one in force, or another one that stands beside it. */
function StartingFrom({
  method,
  edition,
  onStartFrom,
}: {
  method: Method
  edition: Edition
  onStartFrom: (id: string) => void
}) {
  const words = useWords()
  const { day } = useLaboratoryFormat()
  const choices = editionsToCopy(method.editions)
  const nameOf = ({ designation, year, revision, standing, effectiveFrom }: Edition) =>
    words('methods.copyFrom', {
      name: words('methods.editionName', { designation, year, revision }),
      state: words(`methods.state.${standing}`),
      from: day(effectiveFrom),
    })
  return (
    <>
      {choices.length > 1 && (
        <div className="narrow">
          <Select
            name="copiedFrom"
            label={words('methods.startFromWhich')}
            hint={words('methods.startFromHint')}
            value={edition.id}
            onChange={(event) => onStartFrom(event.target.value)}
            options={choices.map((choice) => ({ value: choice.id, label: nameOf(choice) }))}
          />
        </div>
      )}
      <p className="prose">
        {words('methods.startsFrom', {
          designation: edition.designation,
          year: edition.year,
          revision: edition.revision,
        })}{' '}
        {words('methods.keepNumbers')}
      </p>
    </>
  )
}

/** Somebody made an edition from the same one meanwhile: start from theirs, and what is typed here stays. */
function NewerEdition({
  error,
  shown,
  onStartFrom,
}: {
  error: Error | null
  shown: Edition
  onStartFrom: (id: string) => void
}) {
  const words = useWords()
  const stored =
    error instanceof ApiProblem && error.status === 409 ? (error.extra.stored as Edition | undefined) : undefined
  if (stored === undefined || stored.id === shown.id) return null
  return (
    <div className="row">
      <Button onClick={() => onStartFrom(stored.id)}>
        {words('methods.startFrom', { revision: stored.revision })}
      </Button>
    </div>
  )
}
