'use client'

import type { Project, UpdateProject } from '@curebook/contract/projects'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea, TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { differencesOf, storedMeanwhile } from './project-conflict.ts'
import { useUpdateProject } from './projects.queries.ts'

/** Changes a project's name and where its reports go. Somebody else's edit meanwhile is shown beside this one. */
export function EditProjectDialog({ project: opened, onClose }: { project: Project; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  // What the edit started from: a live change behind the dialog must not slip under it.
  const [project] = useState(opened)
  const update = useUpdateProject(lab.id, project.id)
  const done = () => {
    confirm(words('projects.changed', { code: project.code }))
    onClose()
  }
  const { errors, onSubmit } = useCheckedSubmit<UpdateProject>({
    schema: () => import('@curebook/contract/projects').then(({ UpdateProjectSchema }) => UpdateProjectSchema),
    read: (form) => ({
      name: String(form.get('name')),
      reportTo: String(form.get('reportTo')),
      copiesTo: String(form.get('copiesTo')),
    }),
    save: {
      mutate: (body, options) => update.mutate({ body, version: project.version }, options),
      error: storedMeanwhile(update.error) === undefined ? update.error : null,
      isPending: update.isPending,
    },
    onSaved: done,
  })
  const stored = storedMeanwhile(update.error)
  const typed = update.variables?.body
  return (
    <Dialog title={words('projects.editOf', { code: project.code })} onClose={onClose}>
      {stored !== undefined && typed !== undefined && (
        <ConflictPart
          stored={stored}
          typed={typed}
          busy={update.isPending}
          onKeep={onClose}
          onOverwrite={() => update.mutate({ body: typed, version: stored.version }, { onSuccess: done })}
        />
      )}
      <form
        className="stack"
        noValidate
        onSubmit={onSubmit}
        aria-busy={update.isPending}
        style={{ display: stored === undefined ? undefined : 'none' }}
      >
        <FormErrors errors={errors} />
        <TextField
          name="name"
          label={words('projects.name')}
          defaultValue={project.name}
          autoComplete="off"
          error={errors.name}
        />
        <TextArea
          name="reportTo"
          label={words('projects.reportTo')}
          defaultValue={project.reportTo}
          rows={2}
          error={errors.reportTo}
        />
        <TextArea
          name="copiesTo"
          label={words('projects.copiesTo')}
          defaultValue={project.copiesTo}
          rows={2}
          error={errors.copiesTo}
        />
        <div className="row">
          <Button type="submit" tone="main" busy={update.isPending}>
            {words('projects.saveChanges')}
          </Button>
          <SaveState saving={savingOf(update)} />
        </div>
      </form>
    </Dialog>
  )
}

function ConflictPart({
  stored,
  typed,
  busy,
  onKeep,
  onOverwrite,
}: {
  stored: Project
  typed: UpdateProject
  busy: boolean
  onKeep: () => void
  onOverwrite: () => void
}) {
  const words = useWords()
  const differences = differencesOf(stored, typed)
  return (
    <div className="stack" role="alert">
      <p>{words('projects.conflict')}</p>
      {differences.length === 0 && <p>{words('projects.conflictSame')}</p>}
      {differences.map((pair) => (
        <section key={pair.field} className="stack stack-tight" aria-label={words(`projects.${pair.field}`)}>
          <h3>{words(`projects.${pair.field}`)}</h3>
          <dl className="facts">
            <div>
              <dt>{words('projects.standsNow')}</dt>
              <dd>{pair.stored || words('projects.nothing')}</dd>
            </div>
            <div>
              <dt>{words('projects.typedHere')}</dt>
              <dd>{pair.typed || words('projects.nothing')}</dd>
            </div>
          </dl>
        </section>
      ))}
      <div className="row">
        <Button onClick={onKeep}>{words('projects.keepStored')}</Button>
        {differences.length > 0 && (
          <Button tone="main" busy={busy} onClick={onOverwrite}>
            {words('projects.useTyped')}
          </Button>
        )}
      </div>
    </div>
  )
}
