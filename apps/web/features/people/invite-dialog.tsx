'use client'

import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useInvite } from './people.queries.ts'
import { readRoles, RoleFields } from './role-field.tsx'

/** Invites one person; afterwards shows the link, this one time only. */
export function InviteDialog({ onClose }: { onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const invite = useInvite(lab.id)
  const [id] = useState(newId)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/people').then(({ InviteSchema }) => InviteSchema),
    read: (form) => ({
      id,
      email: String(form.get('email')).trim(),
      name: String(form.get('name')),
      ...readRoles(form),
    }),
    save: invite,
  })
  return (
    <Dialog title={words('people.inviteTitle')} onClose={onClose}>
      {invite.data === undefined ? (
        <form className="stack" onSubmit={onSubmit} noValidate aria-busy={invite.isPending}>
          <FormErrors errors={errors} />
          <TextField name="name" label={words('people.name')} autoComplete="off" error={errors.name} />
          <TextField
            name="email"
            type="email"
            label={words('people.email')}
            hint={words('people.emailHint')}
            autoComplete="off"
            autoCapitalize="none"
            error={errors.email}
          />
          <RoleFields initialRoles={[]} initialClient={null} errors={errors} />
          <div className="row">
            <Button type="submit" tone="main" busy={invite.isPending}>
              {words('people.makeInvitation')}
            </Button>
            <SaveState saving={savingOf(invite)} />
          </div>
        </form>
      ) : (
        <InvitationLink path={invite.data.path} name={invite.data.invitation.name} onClose={onClose} />
      )}
    </Dialog>
  )
}

function InvitationLink({ path, name, onClose }: { path: string | null; name: string; onClose: () => void }) {
  const words = useWords()
  const [copied, setCopied] = useState(false)
  if (path === null) return <p>{words('people.alreadyInvited', { name })}</p>
  const link = new URL(path, window.location.origin).href
  return (
    <div className="stack">
      <p>{words('people.linkAbout', { name })}</p>
      <TextField
        name="link"
        label={words('people.link')}
        value={link}
        readOnly
        onFocus={(event) => event.target.select()}
      />
      <div className="row">
        <Button tone="main" onClick={() => void navigator.clipboard?.writeText(link).then(() => setCopied(true))}>
          {words('people.copyLink')}
        </Button>
        <Button onClick={onClose}>{words('people.linkDone')}</Button>
        <span role="status">{copied ? words('people.copied') : ''}</span>
      </div>
    </div>
  )
}
