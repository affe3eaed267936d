'use client'

import type { MailWishes } from '@curebook/contract/mail'
import { useQuery } from '@tanstack/react-query'
import { Button } from '#components/button.tsx'
import { Checkbox } from '#components/choices.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Loaded } from '#components/loaded.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { mailQueries, useSetMailWishes } from './account.queries.ts'

/** Of what this person gets a mail in this laboratory: nothing unasked. */
export function MailPart() {
  const words = useWords()
  const lab = useLaboratory()
  const wishes = useQuery(mailQueries.wishes(lab.id, lab.me.membershipId))
  return (
    <section className="stack" aria-labelledby="mail">
      <h2 id="mail">{words('account.mail')}</h2>
      <p>{words(lab.may('question:ask') ? 'account.mailAboutClient' : 'account.mailAbout')}</p>
      <Loaded query={wishes} what={words('account.mailThese')} height="8rem">
        {(stored) => <WishesForm stored={stored} />}
      </Loaded>
    </section>
  )
}

function WishesForm({ stored }: { stored: MailWishes }) {
  const words = useWords()
  const lab = useLaboratory()
  const isClient = lab.may('question:ask')
  const save = useSetMailWishes(lab.id, lab.me.membershipId)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/mail').then(({ MailWishesSchema }) => MailWishesSchema),
    read: (form) => ({
      // What is not asked of a client, or of the laboratory's own people, is not in the form.
      windowMinutes: Number(form.get('windowMinutes') ?? 0) || null,
      notices: form.has('notices'),
      reports: form.has('reports'),
      answers: form.has('answers'),
    }),
    save,
  })
  return (
    <form className="stack narrow" noValidate onSubmit={onSubmit} aria-busy={save.isPending}>
      <FormErrors errors={errors} />
      {isClient ? (
        <>
          <Checkbox name="reports" label={words('account.mailReports')} defaultChecked={stored.reports} />
          <Checkbox name="answers" label={words('account.mailAnswers')} defaultChecked={stored.answers} />
        </>
      ) : (
        <>
          <Select
            name="windowMinutes"
            label={words('account.mailWindow')}
            defaultValue={stored.windowMinutes ?? ''}
            options={[
              { value: '', label: words('account.mailNever') },
              { value: '30', label: words('account.mailBefore', { minutes: 30 }) },
              { value: '60', label: words('account.mailBefore', { minutes: 60 }) },
            ]}
            error={errors.windowMinutes}
          />
          <Checkbox name="notices" label={words('account.mailNotices')} defaultChecked={stored.notices} />
        </>
      )}
      <div className="row">
        <Button type="submit" busy={save.isPending}>
          {words('account.mailSave')}
        </Button>
        <SaveState saving={savingOf(save)} />
      </div>
    </form>
  )
}
