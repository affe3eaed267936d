'use client'

import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { Button, ButtonLink } from '#components/button.tsx'
import { RadioGroup } from '#components/choices.tsx'
import { FieldSet } from '#components/field-set.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { PasswordField, TextArea, TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { ZoneSelect } from '#components/zone-select.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { firstRunQueries, useFirstRun } from './first-run.queries.ts'

export function FirstRunScreen() {
  const words = useWords()
  const state = useQuery(firstRunQueries.state())
  return (
    <div className="stack">
      <Loaded query={state} what={words('firstRun.what')}>
        {({ needed }) => (needed ? <FirstRunForm /> : <AlreadyMade />)}
      </Loaded>
    </div>
  )
}

function AlreadyMade() {
  const words = useWords()
  return (
    <>
      <PageHeading screen={words('firstRun.done.title')} under={words('firstRun.done.text')} />
      <ButtonLink href="/sign-in" tone="main">
        {words('firstRun.done.signIn')}
      </ButtonLink>
    </>
  )
}

function FirstRunForm() {
  const words = useWords()
  const router = useRouter()
  const confirm = useConfirmation()
  const make = useFirstRun()
  const [id] = useState(newId)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/first-run').then(({ FirstRunSchema }) => FirstRunSchema),
    read: (form) => readFirstRun(form, id),
    save: make,
    onSaved: () => {
      confirm(words('firstRun.made'))
      router.replace('/sign-in')
    },
  })
  return (
    <>
      <PageHeading
        screen={words('firstRun.title')}
        under={words('firstRun.about')}
        failed={Object.keys(errors).length > 0}
      />
      <form className="stack" onSubmit={onSubmit} noValidate aria-busy={make.isPending}>
        <FormErrors errors={errors} />
        <TextField
          name="code"
          label={words('firstRun.code')}
          hint={words('firstRun.codeHint')}
          autoComplete="off"
          spellCheck={false}
          error={errors.code}
        />
        <FieldSet legend={words('firstRun.laboratory')}>
          <TextField
            name="laboratory.name"
            label={words('firstRun.name')}
            error={errors['laboratory.name']}
            autoComplete="organization"
          />
          <TextField
            name="laboratory.shortName"
            label={words('firstRun.shortName')}
            hint={words('firstRun.shortNameHint')}
            autoCapitalize="none"
            spellCheck={false}
            error={errors['laboratory.shortName']}
          />
          <TextArea
            name="laboratory.address"
            label={words('firstRun.address')}
            hint={words('firstRun.addressHint')}
            error={errors['laboratory.address']}
            rows={3}
          />
          <TextField
            name="laboratory.contact"
            label={words('firstRun.contact')}
            hint={words('firstRun.contactHint')}
            error={errors['laboratory.contact']}
          />
          <ZoneSelect
            name="laboratory.zone"
            label={words('firstRun.zone')}
            hint={words('firstRun.zoneHint')}
            error={errors['laboratory.zone']}
          />
          <RadioGroup
            name="laboratory.decimalSign"
            label={words('firstRun.decimalSign')}
            defaultValue="point"
            error={errors['laboratory.decimalSign']}
            choices={['point', 'comma'].map((value) => ({ value, label: words(`firstRun.decimalSign.${value}`) }))}
          />
          <RadioGroup
            name="laboratory.units"
            label={words('firstRun.units')}
            defaultValue="si"
            error={errors['laboratory.units']}
            choices={['si', 'us'].map((value) => ({ value, label: words(`firstRun.units.${value}`) }))}
          />
          <RadioGroup
            name="laboratory.paper"
            label={words('firstRun.paper')}
            defaultValue="a4"
            error={errors['laboratory.paper']}
            choices={['a4', 'letter'].map((value) => ({ value, label: words(`firstRun.paper.${value}`) }))}
          />
        </FieldSet>
        <FieldSet legend={words('firstRun.manager')}>
          <TextField
            name="manager.name"
            label={words('firstRun.managerName')}
            autoComplete="name"
            error={errors['manager.name']}
          />
          <TextField
            name="manager.initials"
            label={words('firstRun.initials')}
            hint={words('firstRun.initialsHint')}
            autoComplete="off"
            error={errors['manager.initials']}
          />
          <TextField
            name="manager.email"
            type="email"
            label={words('firstRun.email')}
            autoComplete="username"
            autoCapitalize="none"
            error={errors['manager.email']}
          />
          <PasswordField
            name="manager.password"
            label={words('firstRun.password')}
            hint={words('firstRun.passwordHint')}
            autoComplete="new-password"
            error={errors['manager.password']}
          />
        </FieldSet>
        <Button type="submit" tone="main" busy={make.isPending}>
          {make.isPending ? words('firstRun.busy') : words('firstRun.act')}
        </Button>
      </form>
    </>
  )
}

function readFirstRun(form: FormData, id: string) {
  const text = (name: string) => String(form.get(name) ?? '')
  const part = (of: string, names: readonly string[]) =>
    Object.fromEntries(names.map((name) => [name, text(`${of}.${name}`)]))
  return {
    code: text('code'),
    laboratory: {
      id,
      ...part('laboratory', ['name', 'shortName', 'address', 'contact', 'zone', 'units', 'decimalSign', 'paper']),
    },
    manager: part('manager', ['name', 'initials', 'email', 'password']),
  }
}
