'use client'

import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useSearchParam } from '#lib/search-param.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { DesignFields, ProjectField } from './design-fields.tsx'
import { readDesignForm, withChoices } from './design-form-data.ts'
import { useCreateDesign } from './designs.queries.ts'

/** A design begins with a project, a specification and the samples that it is made of. */
export function NewDesignScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const create = useCreateDesign(lab.id)
  const [ids] = useState(() => ({ id: newId(), revisionId: newId() }))
  const [project] = useSearchParam('project')
  const [projectId, setProjectId] = useState(project)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/designs').then(({ CreateDesignSchema }) => CreateDesignSchema),
    read: (form) => ({ ...ids, projectId: String(form.get('projectId')), ...readDesignForm(form) }),
    save: create,
    onSaved: () => router.push(`/l/${lab.short}/designs/${ids.id}`),
  })
  const errors = withChoices(told, {
    projectId: words('designs.needProject'),
    specificationId: words('designs.needSpecification'),
    aggregateId: words('designs.needAggregate'),
    emulsionId: words('designs.needEmulsion'),
  })
  return (
    <div className="stack narrow">
      <Breadcrumb trail={[{ href: `/l/${lab.short}/designs`, label: words('designs.title') }]} />
      <PageHeading
        screen={words('designs.newTitle')}
        under={words('designs.newUnder')}
        failed={Object.keys(errors).length > 0}
      />
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={create.isPending}>
        <FormErrors errors={errors} />
        <ProjectField initial={project} onChoose={setProjectId} error={errors.projectId} />
        <DesignFields errors={errors} projectId={projectId} />
        <div className="row">
          <Button type="submit" tone="main" busy={create.isPending}>
            {words('designs.make')}
          </Button>
          <SaveState saving={savingOf(create)} />
        </div>
      </form>
    </div>
  )
}
