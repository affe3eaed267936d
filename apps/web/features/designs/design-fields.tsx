'use client'

import type { Design } from '@curebook/contract/designs'
import type { Material } from '@curebook/contract/materials'
import { useQuery } from '@tanstack/react-query'
import { FieldSet } from '#components/field-set.tsx'
import { Loaded } from '#components/loaded.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { materialFields } from './design-form-data.ts'
import { designQueries } from './designs.queries.ts'
import { MakeLink } from './make-link.tsx'
import { SpecificationField } from './specification-field.tsx'

type Errors = Readonly<Record<string, string>>

export function ProjectField({
  initial,
  onChoose,
  error,
}: {
  initial: string
  onChoose: (id: string) => void
  error?: string
}) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(designQueries.projects(lab.id))
  return (
    <Loaded query={query} what={words('designs.theProjects')} height="5rem">
      {({ items }) => (
        <Select
          name="projectId"
          label={words('designs.project')}
          hint={lab.may('project:create') && <MakeLink href="projects/new">{words('designs.makeProject')}</MakeLink>}
          error={error}
          defaultValue={items.some(({ id }) => id === initial) ? initial : ''}
          onChange={(event) => onChoose(event.target.value)}
          prompt={words('designs.chooseProject')}
          options={items.map(({ id, name, code, clientName, kind }) => ({
            value: id,
            label: words('designs.projectOption', {
              name,
              code,
              client: clientName,
              kind: words(`designs.kind.${kind}`),
            }),
          }))}
        />
      )}
    </Loaded>
  )
}

/** Name, specification, samples and the part of the aggregate that is used. Samples are fixed once specimens are planned. */
export function DesignFields({
  errors,
  projectId,
  initial,
  samplesFixed = false,
}: {
  errors: Errors
  /** Empty until one is chosen. */
  projectId: string
  initial?: Design
  samplesFixed?: boolean
}) {
  const words = useWords()
  return (
    <>
      <TextField
        name="name"
        label={words('designs.nameField')}
        hint={words('designs.nameHint')}
        defaultValue={initial?.name}
        autoComplete="off"
        error={errors.name}
      />
      <SpecificationField projectId={projectId} initial={initial} errors={errors} />
      {samplesFixed ? (
        <p className="quiet">{words('designs.samplesFixed')}</p>
      ) : (
        <SampleFields errors={errors} initial={initial} />
      )}
      <FieldSet legend={words('designs.fraction')}>
        <TextField
          name="fractionUsed"
          label={words('designs.fractionUsed')}
          hint={words('designs.fractionHint')}
          defaultValue={initial?.fractionUsed}
          autoComplete="off"
          error={errors.fractionUsed}
        />
        <MeasureField
          name="scalpedPercent"
          label={words('designs.scalped')}
          hint={words('designs.scalpedHint')}
          quantity={words('designs.scalpedShort')}
          unit="%"
          optional
          defaultValue={initial?.scalpedPercent}
          error={errors.scalpedPercent}
        />
      </FieldSet>
    </>
  )
}

function SampleFields({ errors, initial }: { errors: Errors; initial?: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(designQueries.materials(lab.id))
  return (
    <Loaded query={query} what={words('designs.theSamples')} height="24rem">
      {({ items }) => (
        <FieldSet legend={words('designs.samples')}>
          {materialFields.map(({ name, kind, needed }) => (
            <Select
              key={name}
              name={name}
              label={words(`designs.sample.${kind}`)}
              hint={
                lab.may('material:create') && (
                  <MakeLink href={`materials/new?kind=${kind}`}>{words(`designs.makeSample.${kind}`)}</MakeLink>
                )
              }
              error={errors[name]}
              defaultValue={initial?.materials[kind]?.id}
              prompt={words(needed ? 'designs.chooseSample' : 'designs.noSample')}
              options={items.filter((item) => item.kind === kind).map(optionOf)}
            />
          ))}
        </FieldSet>
      )}
    </Loaded>
  )
}

function optionOf({ id, code, name, sourceName, lot }: Material) {
  return { value: id, label: [code, name, sourceName, lot].filter((part) => part !== '').join(', ') }
}
