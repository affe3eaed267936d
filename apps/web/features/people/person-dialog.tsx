'use client'

import type { Person } from '@curebook/contract/people'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { serverNow } from '#lib/server-clock.ts'
import { useWords } from '#lib/words.ts'
import { useUpdatePerson } from './people.queries.ts'
import { readRoles, RoleFields } from './role-field.tsx'

/** Changes a person's name, initials and roles, or ends their access; what they did keeps their name. */
export function PersonDialog({ person, onClose }: { person: Person; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const update = useUpdatePerson(lab.id, person)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/people').then(({ UpdatePersonSchema }) => UpdatePersonSchema),
    read: (form) => ({ name: String(form.get('name')), initials: String(form.get('initials')), ...readRoles(form) }),
    save: update,
    onSaved: () => {
      confirm(words('people.changed', { name: person.name }))
      onClose()
    },
  })
  return (
    <Dialog title={words('people.changeOf', { name: person.name })} onClose={onClose}>
      <form className="stack" onSubmit={onSubmit} noValidate aria-busy={update.isPending}>
        <FormErrors errors={errors} />
        <TextField
          name="name"
          label={words('people.name')}
          defaultValue={person.name}
          autoComplete="off"
          error={errors.name}
        />
        <TextField
          name="initials"
          label={words('people.initials')}
          defaultValue={person.initials}
          autoComplete="off"
          error={errors.initials}
        />
        <RoleFields initialRoles={person.roles} initialClient={person.clientId} errors={errors} />
        <div className="row">
          <Button type="submit" tone="main" busy={update.isPending}>
            {words('people.saveChanges')}
          </Button>
          <SaveState saving={savingOf(update)} />
        </div>
      </form>
      {person.id !== lab.me.membershipId && <AccessPart person={person} onClose={onClose} />}
    </Dialog>
  )
}

/** A final act asks in a second place: a first press opens it, the second one says what it does. */
function AccessPart({ person, onClose }: { person: Person; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const end = useUpdatePerson(lab.id, person)
  const [asked, setAsked] = useState(false)
  const ended = person.validUntil !== null
  const act = () =>
    end.mutate(
      { validUntil: ended ? null : serverNow() },
      {
        onSuccess: () => {
          confirm(words(ended ? 'people.accessBack' : 'people.accessEnded', { name: person.name }))
          onClose()
        },
      },
    )
  return (
    <section className="stack stack-tight" data-form>
      <h3>{words('people.access')}</h3>
      <FormErrors errors={fieldErrors(end.error)} />
      <p>{words(ended ? 'people.accessIsEnded' : 'people.accessAbout')}</p>
      <div className="row">
        {ended ? (
          <Button busy={end.isPending} onClick={act}>
            {words('people.giveAccess', { name: person.name })}
          </Button>
        ) : asked ? (
          <>
            <Button onClick={() => setAsked(false)}>{words('people.keepAccess')}</Button>
            <Button tone="danger" busy={end.isPending} onClick={act}>
              {words('people.endAccess', { name: person.name })}
            </Button>
          </>
        ) : (
          <Button onClick={() => setAsked(true)}>{words('people.endAccessAsk')}</Button>
        )}
      </div>
    </section>
  )
}
