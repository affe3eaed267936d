'use client'

import type { PinnedSpecification } from '@curebook/contract/project-specifications'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button, ButtonLink } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Loaded } from '#components/loaded.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextArea } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { choicesOf } from './specification-choices.ts'
import { projectSpecificationQueries, useSetProjectSpecification } from './project-specifications.queries.ts'

/** Sets what the project stands on; a change says why. Set by somebody else meanwhile, it is refused and told. */
export function SetSpecificationDialog({
  projectId,
  stands,
  chosen,
  onClose,
}: {
  projectId: string
  stands: PinnedSpecification | undefined
  /** Chosen already; empty where nothing is. */
  chosen: string
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const query = useQuery(projectSpecificationQueries.choices(lab.id, projectId))
  // What was shown when the dialog opened: somebody else's choice behind it is told and not replaced unseen.
  const [{ id, before }] = useState(() => ({ id: newId(), before: stands }))
  const set = useSetProjectSpecification(lab.id, projectId)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () =>
      import('@curebook/contract/project-specifications').then(
        ({ SetProjectSpecificationSchema }) => SetProjectSpecificationSchema,
      ),
    read: (form) => {
      const reason = String(form.get('reason') ?? '').trim()
      return {
        id,
        specificationId: String(form.get('specificationId')),
        after: before?.id ?? null,
        ...(reason === '' ? {} : { reason }),
      }
    },
    save: set,
    onSaved: () => {
      confirm(words('projectSpecification.saved'))
      onClose()
    },
  })
  const errors = inFieldSentences(told, { specificationId: words('projectSpecification.needChoice') })
  return (
    <Dialog
      title={words(before === undefined ? 'projectSpecification.set' : 'projectSpecification.change')}
      onClose={onClose}
    >
      <Loaded query={query} what={words('projectSpecification.choices')} height="8rem">
        {({ items }) => {
          const choices = choicesOf(items, before?.specification.id)
          if (choices.length === 0)
            return (
              <EmptyState
                title={words('projectSpecification.noChoice')}
                action={
                  <ButtonLink href={`/l/${lab.short}/specifications/new?project=${projectId}`} tone="main">
                    {words('projectSpecification.adoptCopy')}
                  </ButtonLink>
                }
              >
                {words('projectSpecification.noChoiceMore')}
              </EmptyState>
            )
          return (
            <form className="stack" noValidate onSubmit={onSubmit} aria-busy={set.isPending}>
              <FormErrors errors={errors} />
              <Select
                name="specificationId"
                label={words('projectSpecification.which')}
                hint={words('projectSpecification.whichHint')}
                prompt={words('projectSpecification.choose')}
                defaultValue={choices.some((choice) => choice.id === chosen) ? chosen : ''}
                options={choices.map(({ id: value, name, version, aggregateType, traffic, standing, project }) => ({
                  value,
                  label: words('projectSpecification.option', {
                    name,
                    version,
                    aggregateType,
                    traffic,
                    kind: project !== null ? 'copy' : standing === 'superseded' ? 'older' : 'plain',
                  }),
                }))}
                error={errors.specificationId}
              />
              {before !== undefined && (
                <TextArea
                  name="reason"
                  label={words('projectSpecification.reason')}
                  hint={words('projectSpecification.reasonHint')}
                  rows={2}
                  error={errors.reason}
                />
              )}
              <div className="row">
                <Button type="submit" tone="main" busy={set.isPending}>
                  {words('projectSpecification.save')}
                </Button>
                <SaveState saving={savingOf(set)} />
              </div>
            </form>
          )
        }}
      </Loaded>
    </Dialog>
  )
}
