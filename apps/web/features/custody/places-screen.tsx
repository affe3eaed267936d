'use client'

import type { Place } from '@curebook/contract/custody'
import { useQuery } from '@tanstack/react-query'
import { useRef, useState } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button } from '#components/button.tsx'
import { Checkbox } from '#components/choices.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { custodyQueries, useCreatePlace } from './custody.queries.ts'

const kinds = ['store', 'room', 'oven', 'bath', 'outside'] as const satisfies readonly Place['kind'][]

/** Places in which items stand; those with access control can have custody. */
export function PlacesScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(custodyQueries.places(lab.id))
  const columns: readonly Column<Place>[] = [
    { key: 'name', head: words('custody.placeName'), sort: ({ name }) => name, cell: ({ name }) => name },
    { key: 'kind', head: words('custody.placeKind'), cell: ({ kind }) => words(`custody.placeKind.${kind}`) },
    {
      key: 'access',
      head: words('custody.access'),
      cell: ({ accessControlled }) => words(accessControlled ? 'custody.access.yes' : 'custody.access.no'),
    },
  ]
  return (
    <div className="stack stack-wide">
      <div className="stack">
        <Breadcrumb trail={[{ href: `/l/${lab.short}/materials`, label: words('custody.materials') }]} />
        <PageHeading screen={words('custody.places')} under={words('custody.placesUnder')} failed={query.isError} />
      </div>
      <Loaded query={query} what={words('custody.thesePlaces')}>
        {({ items }) => (
          <DataTable
            caption={words('custody.places')}
            captionHidden
            columns={columns}
            rows={items}
            idOf={({ id }) => id}
            empty={<EmptyState title={words('custody.noPlaces')}>{words('custody.noPlacesMore')}</EmptyState>}
          />
        )}
      </Loaded>
      {lab.may('place:create') && <NewPlace />}
    </div>
  )
}

function NewPlace() {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const create = useCreatePlace(lab.id)
  const form = useRef<HTMLFormElement>(null)
  const [id, setId] = useState(newId)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/custody').then(({ CreatePlaceSchema }) => CreatePlaceSchema),
    read: (data) => ({
      id,
      name: String(data.get('name')),
      kind: data.get('kind'),
      accessControlled: data.get('accessControlled') === 'on',
    }),
    save: create,
    onSaved: () => {
      confirm(words('custody.placeMade'))
      setId(newId())
      form.current?.reset()
    },
  })
  const errors = inFieldSentences(told, { kind: words('custody.needPlaceKind') })
  return (
    <section className="stack narrow no-print" aria-labelledby="new-place">
      <h2 id="new-place">{words('custody.newPlace')}</h2>
      <form ref={form} className="stack" noValidate onSubmit={onSubmit} aria-busy={create.isPending}>
        <FormErrors errors={errors} />
        <TextField
          name="name"
          label={words('custody.placeName')}
          hint={words('custody.placeNameHint')}
          autoComplete="off"
          error={errors.name}
        />
        <Select
          name="kind"
          label={words('custody.placeKind')}
          prompt={words('custody.choosePlaceKind')}
          options={kinds.map((value) => ({ value, label: words(`custody.placeKind.${value}`) }))}
          error={errors.kind}
        />
        <Checkbox name="accessControlled" label={words('custody.accessField')} error={errors.accessControlled} />
        <div className="row">
          <Button type="submit" tone="main" busy={create.isPending}>
            {words('custody.makePlace')}
          </Button>
          <SaveState saving={savingOf(create)} />
        </div>
      </form>
    </section>
  )
}
