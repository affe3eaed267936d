'use client'

import type { BuiltInSpecification, Limit } from '@curebook/contract/specifications'
import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { readAdoption } from './adoption-form.ts'
import { ForContract, useContract } from './for-contract.tsx'
import { BandChange } from './band-change.tsx'
import { LimitChange } from './limit-change.tsx'
import { specificationQueries, useAdoptSpecification } from './specifications.queries.ts'
import { useVariantChoice, type VariantChosen } from './use-variant-choice.ts'
import { VariantChoice } from './variant-choice.tsx'

const roundings = ['none', 'half-even', 'half-up', 'up', 'truncate'] as const

/** A copy of the built-in guideline values, with what the contract changes, each change with its reason. */
export function AdoptScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(specificationQueries.builtIn(lab.id))
  return (
    <div className="stack">
      <Breadcrumb trail={[{ href: `/l/${lab.short}/specifications`, label: words('specifications.title') }]} />
      <PageHeading screen={words('specifications.newTitle')} under={words('specifications.newUnder')} />
      <ForContract />
      <Loaded query={query} what={words('specifications.theBuiltIn')} height="24rem">
        {({ items }) => <Chosen items={items} />}
      </Loaded>
    </div>
  )
}

function Chosen({ items }: { items: readonly BuiltInSpecification[] }) {
  const choice = useVariantChoice(items)
  const [name, setName] = useState('')
  if (choice === undefined) return null
  return (
    <div className="stack">
      <VariantChoice items={items} choice={choice} />
      {/* Another guideline has other limits: what was changed belongs to the one that was chosen. */}
      <AdoptForm
        key={`${choice.builtIn.key} ${choice.variant.aggregateType} ${choice.variant.traffic}`}
        choice={choice}
        name={name}
        onName={setName}
      />
    </div>
  )
}

function AdoptForm({
  choice: { builtIn, variant },
  name,
  onName,
}: {
  choice: VariantChosen
  name: string
  onName: (name: string) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const adopt = useAdoptSpecification(lab.id)
  const contract = useContract()
  const [id] = useState(newId)
  const [changed, setChanged] = useState<readonly Limit[]>([])
  const [bandChanged, setBandChanged] = useState(false)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () =>
      import('@curebook/contract/specifications').then(({ AdoptSpecificationSchema }) => AdoptSpecificationSchema),
    read: (form) =>
      readAdoption(form, {
        id,
        builtInKey: builtIn.key,
        aggregateType: variant.aggregateType,
        traffic: variant.traffic,
        changed,
        bandChanged,
        projectId: contract.projectId,
      }),
    save: adopt,
    onSaved: () => router.push(contract.addressOf(id)),
  })
  const toggle = (limit: Limit) =>
    setChanged(changed.includes(limit) ? changed.filter((other) => other !== limit) : [...changed, limit])
  return (
    <form className="stack" noValidate onSubmit={onSubmit} aria-busy={adopt.isPending}>
      <FormErrors errors={errors} />
      <div className="narrow stack">
        <TextField
          name="name"
          label={words('specifications.name')}
          hint={words('specifications.nameHint')}
          value={name}
          onChange={(event) => onName(event.target.value)}
          autoComplete="off"
          error={errors.name}
        />
        <Select
          name="rounding"
          label={words('specifications.rounding')}
          hint={words('specifications.roundingHint')}
          defaultValue="none"
          options={roundings.map((value) => ({ value, label: words(`specifications.rounding.${value}`) }))}
          error={errors.rounding}
        />
      </div>
      <h2>{words('specifications.values')}</h2>
      <p className="quiet prose">{words('specifications.valuesAbout')}</p>
      <BandChange
        band={variant.residualBand}
        changed={bandChanged}
        onToggle={() => setBandChanged(!bandChanged)}
        errors={errors}
      />
      <ul className="plain-list stack stack-tight" aria-label={words('specifications.values')}>
        {variant.limits.map((limit) => (
          <li key={limit.key}>
            <LimitChange limit={limit} index={changed.indexOf(limit)} onToggle={() => toggle(limit)} errors={errors} />
          </li>
        ))}
      </ul>
      <div className="row">
        <Button type="submit" tone="main" busy={adopt.isPending}>
          {words('specifications.make')}
        </Button>
        <SaveState saving={savingOf(adopt)} />
        <span className="quiet" role="status">
          {words('specifications.changeCount', { count: changed.length + (bandChanged ? 1 : 0) })}
        </span>
      </div>
    </form>
  )
}
