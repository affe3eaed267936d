'use client'

import type { Design } from '@curebook/contract/designs'
import type { ProjectSpecifications } from '@curebook/contract/project-specifications'
import type { Specification } from '@curebook/contract/specifications'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Loaded } from '#components/loaded.tsx'
import { Select } from '#components/select.tsx'
import { TextArea } from '#components/text-field.tsx'
import { projectSpecificationQueries } from '#features/project-specifications/project-specifications.queries.ts'
import { choicesOfDesign, chosenOf } from '#features/project-specifications/specification-choices.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { MakeLink } from './make-link.tsx'

type FieldProps = {
  /** Empty until one is chosen. */
  projectId: string
  initial?: Design
  errors: Readonly<Record<string, string>>
}

/**
 * What the design is held against: its project's to begin with. Another one asks for the reason. What a person chose and
 * typed stays when they choose another project, as far as that one may choose it.
 */
export function SpecificationField(props: FieldProps) {
  const words = useWords()
  const lab = useLaboratory()
  const { projectId, initial } = props
  const [picked, setPicked] = useState(initial?.specification.id)
  // A reason belongs to what was chosen by it.
  const [reasons, setReasons] = useState<Readonly<Record<string, string>>>(
    initial ? { [initial.specification.id]: initial.specificationReason ?? '' } : {},
  )
  const choice = { picked, onPick: setPicked, reasons, onReasons: setReasons }
  const list = useQuery(projectSpecificationQueries.choices(lab.id, projectId))
  const told = useQuery({
    ...projectSpecificationQueries.ofProject(lab.id, projectId),
    enabled: projectId !== '',
  })
  return (
    <Loaded query={list} what={words('designs.theSpecifications')} height="5rem">
      {({ items }) =>
        projectId === '' ? (
          <Choice {...props} {...choice} items={items} />
        ) : (
          <Loaded query={told} what={words('projectSpecification.this')} height="5rem">
            {(stands) => <Choice {...props} {...choice} items={items} told={stands} />}
          </Loaded>
        )
      }
    </Loaded>
  )
}

function Choice({
  projectId,
  initial,
  errors,
  items,
  told,
  picked,
  onPick,
  reasons,
  onReasons,
}: FieldProps & {
  items: readonly Specification[]
  told?: ProjectSpecifications
  /** Undefined until a person chooses. */
  picked: string | undefined
  onPick: (id: string) => void
  reasons: Readonly<Record<string, string>>
  onReasons: (reasons: Readonly<Record<string, string>>) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const own = told?.items[0]?.specification
  const offered = choicesOfDesign(items, { ofProject: own?.id, ofDesign: initial?.specification.id })
  const chosen = chosenOf(offered, { picked, ofProject: told?.standing === 'withdrawn' ? undefined : own?.id })
  const differs = own !== undefined && chosen !== '' && chosen !== own.id
  return (
    <>
      <Select
        name="specificationId"
        label={words('designs.specification')}
        hint={
          <>
            {told !== undefined && <Standing told={told} projectId={projectId} isOwn={chosen === own?.id} />}{' '}
            {lab.may('specification:adopt') && (
              <MakeLink href={`specifications/new${projectId === '' ? '' : `?project=${projectId}`}`}>
                {words('designs.makeSpecification')}
              </MakeLink>
            )}
          </>
        }
        error={errors.specificationId}
        value={chosen}
        onChange={(event) => onPick(event.target.value)}
        prompt={words('designs.chooseSpecification')}
        options={offered.map(({ id, name, version, aggregateType, traffic }) => ({
          value: id,
          label: words('designs.specificationOption', {
            name,
            version,
            aggregateType,
            traffic: words(`designs.traffic.${traffic}`),
          }),
        }))}
      />
      {differs && (
        <TextArea
          name="specificationReason"
          label={words('designs.whyNotTheProjects')}
          hint={words('designs.whyNotTheProjectsHint')}
          value={reasons[chosen] ?? ''}
          onChange={(event) => onReasons({ ...reasons, [chosen]: event.target.value })}
          rows={2}
          error={errors.specificationReason}
        />
      )}
    </>
  )
}

/** What the project stands on, beside what is chosen. */
function Standing({
  told: { items, standing, newer },
  projectId,
  isOwn,
}: {
  told: ProjectSpecifications
  projectId: string
  isOwn: boolean
}) {
  const words = useWords()
  const [stands] = items
  if (stands === undefined) return <MakeLink href={`projects/${projectId}`}>{words('designs.projectHasNone')}</MakeLink>
  const { name, version } = stands.specification
  if (standing === 'withdrawn') return <>{words('designs.projectsWithdrawn', { name, version })}</>
  return (
    <>
      {isOwn ? words('designs.isTheProjects') : words('designs.theProjectsIs', { name, version })}
      {newer !== null && ` ${words('designs.projectsNewer', { version: newer.version })}`}
    </>
  )
}
