import type { Role } from '@curebook/contract/common'
import type { Actor } from '#platform/actor'
import { newId } from '#platform/uuid'
import type { Services } from '../services.ts'
import { demoZone } from './demo-calendar.ts'

export type DemoPeople = Record<'manager' | 'technician' | 'technician2' | 'engineer' | 'auditor' | 'client', Actor>
export type DemoLaboratory = { readonly people: DemoPeople; readonly clientId: string; readonly otherClientId: string }

const names: Record<Exclude<keyof DemoPeople, 'manager'>, { name: string; role: Role }> = {
  technician: { name: 'Ada Lindqvist', role: 'technician' },
  technician2: { name: 'Bram Osei', role: 'technician' },
  engineer: { name: 'Elin Marsh', role: 'engineer' },
  auditor: { name: 'Cora Whitlow', role: 'auditor' },
  client: { name: 'Ines Calder', role: 'client' },
}

/** Makes the laboratory with its people and clients; everybody is invited and accepts, as in life. All names are invented. */
export async function makeDemoLaboratory(services: Services, password: string): Promise<DemoLaboratory> {
  const email = (key: string) => `${key}@ternhollow.example`
  const accountId = await services.auth.createAccount({ email: email('manager'), name: 'Marek Dunmore', password })
  const manager = await services.firstRun.make(
    {
      id: newId(),
      shortName: 'ternhollow',
      name: 'Tern Hollow Surfacing Laboratory',
      address: 'Unit 4, Tern Hollow Works, Marrowdale',
      contact: 'laboratory@ternhollow.example',
      zone: demoZone,
      units: 'si',
      decimalSign: 'point',
      paper: 'a4',
    },
    { accountId, name: 'Marek Dunmore', initials: 'MD' },
  )
  const clientId = newId()
  await services.clients.create(manager, {
    id: clientId,
    name: 'Marrowdale County Roads',
    contact: 'Ines Calder, pavement engineer',
    address: 'County Hall, Marrowdale',
  })
  const otherClientId = newId()
  await services.clients.create(manager, {
    id: otherClientId,
    name: 'Pellworth Airfield Trust',
    contact: 'Works office',
    address: 'Pellworth Airfield',
  })
  const people: Partial<DemoPeople> = { manager }
  for (const [key, { name, role }] of Object.entries(names))
    people[key as keyof DemoPeople] = await join(services, manager, {
      email: email(key),
      name,
      role,
      password,
      clientId: role === 'client' ? clientId : null,
    })
  return { people: people as DemoPeople, clientId, otherClientId }
}

type Joining = { email: string; name: string; role: Role; password: string; clientId: string | null }

async function join(
  services: Services,
  manager: Actor,
  { email, name, role, password, clientId }: Joining,
): Promise<Actor> {
  const { value } = await services.invitations.invite(manager, { id: newId(), email, name, roles: [role], clientId })
  const { membershipId } = await services.invitations.accept({ token: value.token!, name, password }, undefined, {
    address: `demo ${email}`,
    agent: 'demo',
    cookie: undefined,
  })
  const account = await services.auth.accountByEmail(email)
  const person = (await services.people.list(manager)).find(({ id }) => id === membershipId)!
  return {
    kind: 'person',
    accountId: account!.id,
    sessionId: null,
    labId: manager.labId,
    membershipId,
    name,
    initials: person.initials,
    roles: [role],
    clientId,
  }
}
