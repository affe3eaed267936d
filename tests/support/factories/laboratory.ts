import type { Role } from '@curebook/contract/common'
import request from 'supertest'
import type { Actor } from '../../../apps/api/src/platform/actor.ts'
import { newId } from '../../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../app.ts'
import { makeAccounts } from './account.ts'

export type TestPerson = { actor: Actor; accountId: string; email: string; cookie: string }
export type TestLaboratory = Awaited<ReturnType<typeof makeLaboratory>>
export type PersonKey =
  'manager' | 'technician' | 'technician2' | 'engineer' | 'engineer2' | 'auditor' | 'client' | 'otherClient'

const roleOf: Record<PersonKey, Role> = {
  manager: 'manager',
  technician: 'technician',
  technician2: 'technician',
  engineer: 'engineer',
  engineer2: 'engineer',
  auditor: 'auditor',
  client: 'client',
  otherClient: 'client',
}
const keys = Object.keys(roleOf) as PersonKey[]

/**
 * A fresh laboratory with people in every role, signed in, and two clients with a user each. Everything else a test needs it
 * makes itself.
 */
export async function makeLaboratory(testApp: TestApp, { zone = 'Europe/London' }: { zone?: string } = {}) {
  const { firstRun, laboratory } = testApp.services
  const mark = newId().slice(-8)
  const labId = newId()
  const shortName = `lab-${mark}`
  const clientId = newId()
  const otherClientId = newId()
  const clients: Partial<Record<PersonKey, string>> = { client: clientId, otherClient: otherClientId }

  const accounts = await makeAccounts(
    testApp,
    keys.map((key) => ({ name: `Person ${key}`, email: `${key.toLowerCase()}.${mark}@ternhollow.example` })),
  )
  const managerFacts = { accountId: accounts[0]!.accountId, name: 'Person manager', initials: 'PM' }
  const place = {
    id: labId,
    shortName,
    name: `Laboratory ${mark}`,
    address: '1 Kiln Lane',
    contact: '',
    zone,
    units: 'si',
    decimalSign: 'point',
    paper: 'a4',
  } as const
  const manager = await firstRun.make(place, managerFacts)

  const people = Object.fromEntries(
    keys.map((key, index): [PersonKey, TestPerson] => {
      const { accountId, sessionId, cookie } = accounts[index]!
      const actor: Actor = {
        kind: 'person',
        accountId,
        sessionId,
        labId,
        membershipId: key === 'manager' ? manager.membershipId : newId(),
        name: `Person ${key}`,
        initials: key === 'manager' ? 'PM' : key.slice(0, 2).toUpperCase() + key.slice(-1).toUpperCase(),
        roles: [roleOf[key]],
        clientId: clients[key] ?? null,
      }
      return [key, { actor, accountId, email: `${key.toLowerCase()}.${mark}@ternhollow.example`, cookie }]
    }),
  ) as Record<PersonKey, TestPerson>

  await laboratory.inLaboratory(manager, async ({ prisma, at }) => {
    await prisma.client.createMany({
      data: [
        { labId, id: clientId, name: 'Marrowdale County Roads', contact: '', address: '' },
        { labId, id: otherClientId, name: 'Pellworth Airfield Trust', contact: '', address: '' },
      ],
    })
    await prisma.membership.createMany({ data: keys.slice(1).map((key) => membershipOf(people[key].actor, at)) })
  })

  return {
    labId,
    shortName,
    clientId,
    otherClientId,
    people,
    /** `/api/labs/<this one>` and what follows. */
    path: (rest = '') => `/api/labs/${labId}${rest}`,
    /** A client of the server that sends this person's session. `url` = another process' address. */
    as: (who: PersonKey | TestPerson, url = testApp.url) =>
      request.agent(url).set('cookie', (typeof who === 'string' ? people[who] : who).cookie),
  }
}

/** Adds a person with these roles to a laboratory, signed in. */
export async function makePerson(
  testApp: TestApp,
  { labId, people }: Pick<TestLaboratory, 'labId' | 'people'>,
  { name, roles, clientId = null }: { name: string; roles: Role[]; clientId?: string | null },
): Promise<TestPerson> {
  const email = `person.${newId().slice(-12)}@ternhollow.example`
  const [account] = await makeAccounts(testApp, [{ name, email }])
  const { accountId, sessionId, cookie } = account!
  const actor: Actor = {
    kind: 'person',
    accountId,
    sessionId,
    labId,
    membershipId: newId(),
    name,
    initials: name.slice(0, 2).toUpperCase(),
    roles,
    clientId,
  }
  await testApp.services.laboratory.inLaboratory(people.manager.actor, async ({ prisma, at }) => {
    await prisma.membership.createMany({ data: [membershipOf(actor, at)] })
  })
  return { actor, accountId, email, cookie }
}

function membershipOf({ labId, membershipId, accountId, name, initials, roles, clientId }: Actor, validFrom: Date) {
  return { labId, id: membershipId, accountId, name, initials, roles, clientId, validFrom }
}
