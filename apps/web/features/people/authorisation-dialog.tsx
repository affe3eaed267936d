'use client'

import type { Authorisations } from '@curebook/contract/authorisations'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { readSpan, SpanFields } from './authorisation-span.tsx'
import { peopleQueries, useGrant } from './people.queries.ts'

/** Authorises one person for one activity. The first one of an activity binds everybody, which is said before it is done. */
export function AuthorisationDialog({
  activities,
  onClose,
}: {
  activities: Authorisations['activities']
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const people = useQuery(peopleQueries.list(lab.id))
  const grant = useGrant(lab.id)
  const [id] = useState(newId)
  const [membershipId, setMembershipId] = useState('')
  const [activity, setActivity] = useState('')
  const first = activities.some((one) => one.activity === activity && !one.binds)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/authorisations').then(({ GrantSchema }) => GrantSchema),
    read: (form) => ({
      id,
      membershipId,
      activity: String(form.get('activity')),
      ...readSpan(form),
    }),
    save: grant,
    onSaved: () => {
      confirm(words('people.auth.granted'))
      onClose()
    },
  })
  const errors = inFieldSentences(told, {
    membershipId: words('people.auth.needPerson'),
    fromDay: words('people.auth.needFrom'),
    untilDay: words('people.auth.needUntil'),
  })
  return (
    <Dialog title={words('people.auth.grant')} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={grant.isPending}>
        <FormErrors errors={errors} />
        <Select
          name="membershipId"
          label={words('people.name')}
          prompt={words('people.auth.choosePerson')}
          options={(people.data ?? [])
            .filter(({ roles }) => !roles.includes('client'))
            .map((person) => ({ value: person.id, label: person.name }))}
          value={membershipId}
          onChange={(event) => setMembershipId(event.target.value)}
          error={errors.membershipId ?? (people.isError ? people.error.message : undefined)}
        />
        <Select
          name="activity"
          label={words('people.auth.activity')}
          prompt={words('people.auth.chooseActivity')}
          options={activities.map((one) => ({ value: one.activity, label: one.label }))}
          value={activity}
          onChange={(event) => setActivity(event.target.value)}
          hint={first ? words('people.auth.first') : undefined}
          error={errors.activity}
        />
        <SpanFields errors={errors} />
        <div className="row">
          <Button type="submit" tone="main" busy={grant.isPending}>
            {words('people.auth.grant')}
          </Button>
          <SaveState saving={savingOf(grant)} />
        </div>
      </form>
    </Dialog>
  )
}
