'use client'

import type { Client } from '@curebook/contract/projects'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { CheckboxGroup } from '#components/choices.tsx'
import { Select } from '#components/select.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { peopleQueries } from './people.queries.ts'

const roles = ['manager', 'technician', 'engineer', 'auditor', 'client'] as const

/** Roles of a person, and the client when that is the role. FormData: `roles` once for each, `clientId`. */
export function RoleFields({
  initialRoles,
  initialClient,
  errors,
}: {
  initialRoles: readonly string[]
  initialClient: string | null
  errors: Readonly<Record<string, string>>
}) {
  const words = useWords()
  const [chosen, setChosen] = useState(initialRoles)
  return (
    <>
      <CheckboxGroup
        name="roles"
        label={words('people.roles')}
        defaultValues={initialRoles}
        onValues={setChosen}
        error={errors.roles}
        choices={roles.map((role) => ({
          value: role,
          label: words(`shell.role.${role}`),
          hint: words(`people.roleHint.${role}`),
        }))}
      />
      {chosen.includes('client') && <ClientField initial={initialClient} error={errors.clientId} />}
    </>
  )
}

function ClientField({ initial, error }: { initial: string | null; error?: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const clients = useQuery(peopleQueries.clients(lab.id))
  const options = (clients.data?.items ?? []).map(({ id, name }: Pick<Client, 'id' | 'name'>) => ({
    value: id,
    label: name,
  }))
  return (
    <Select
      key={options.length}
      name="clientId"
      label={words('people.client')}
      hint={clients.data !== undefined && options.length === 0 ? words('people.noClients') : undefined}
      prompt={words('people.chooseClient')}
      options={options}
      defaultValue={initial ?? ''}
      error={error ?? (clients.isError ? clients.error.message : undefined)}
    />
  )
}

/** What RoleFields put into a form, as the contract wants it. */
export function readRoles(form: FormData): { readonly roles: readonly string[]; readonly clientId: string | null } {
  const chosen = form.getAll('roles').map(String)
  const client = String(form.get('clientId') ?? '')
  return { roles: chosen, clientId: client === '' || !chosen.includes('client') ? null : client }
}
