import type { Role } from '@curebook/contract/common'
import { openDatabase } from '@curebook/database/open-database'
import { builtInMethods } from '@curebook/trade/methods/catalogue'
import type { Actor } from '../../apps/api/src/platform/actor.ts'
import { createControlledClock } from '../../apps/api/src/platform/clock.ts'
import { newId } from '../../apps/api/src/platform/uuid.ts'
import { createServices } from '../../apps/api/src/services.ts'
import { testSecret, type TestApp } from './app.ts'
import { makeAccounts, testPassword } from './factories/account.ts'
import type { TestLaboratory } from './factories/laboratory.ts'
import type { Product } from './journey-product.ts'

export type JourneyRole = keyof typeof people
export type JourneyLaboratory = {
  readonly labId: string
  readonly shortName: string
  readonly emails: Readonly<Record<JourneyRole, string>>
  readonly password: string
}

const people = {
  manager: { name: 'Marek Dunmore', initials: 'MD', role: 'manager' },
  technician: { name: 'Ada Lindqvist', initials: 'AL', role: 'technician' },
  technician2: { name: 'Bram Osei', initials: 'BO', role: 'technician' },
  engineer: { name: 'Elin Marsh', initials: 'EM', role: 'engineer' },
  auditor: { name: 'Cora Whitlow', initials: 'CW', role: 'auditor' },
  client: { name: 'Ines Calder', initials: 'IC', role: 'client' },
} as const satisfies Record<string, { name: string; initials: string; role: Role }>
const keys = Object.keys(people) as JourneyRole[]

/** What a journey begins with where its beginning is another journey's matter; the clock moves as told. */
export type Prepare<T> = (testApp: TestApp, lab: TestLaboratory) => Promise<T>

/**
 * A laboratory with its people, who can sign in; how people come in by screen is the first run's journey. What `prepare` makes
 * goes through the services, as in the factories. The client is there only where something is prepared. All names are invented.
 */
export function makeJourneyLaboratory<T = undefined>(
  product: Product,
  { at, prepare }: { at: string; prepare?: Prepare<T> },
): Promise<JourneyLaboratory & { readonly prepared: T }> {
  return withServices(product, at, async (testApp) => {
    const lab = await makePeople(testApp, prepare !== undefined)
    const emails = Object.fromEntries(keys.map((key) => [key, emailOf(key)])) as Record<JourneyRole, string>
    const prepared = (await prepare?.(testApp, lab)) as T
    return { labId: lab.labId, shortName: lab.shortName, emails, password: testPassword, prepared }
  })
}

/** The product's services on its database, beside its server, for what a journey takes as given. */
export async function withServices<T>(
  { database }: Pick<Product, 'database'>,
  at: string,
  work: (testApp: TestApp) => Promise<T>,
): Promise<T> {
  const { appUrl, identityUrl, sealerUrl } = database
  const opened = await openDatabase({ appUrl, identityUrl, sealerUrl })
  const config = { publicUrl: undefined, secrets: { authSecret: testSecret, setupCode: undefined } }
  const clock = createControlledClock(at)
  const services = createServices({ database: opened, clock, methods: builtInMethods, config })
  try {
    return await work({ services, clock, database: opened, config } as unknown as TestApp)
  } finally {
    await services.close()
    await opened.close()
  }
}

const emailOf = (key: JourneyRole) => `${key}@ternhollow.example`

async function makePeople(testApp: TestApp, withClient: boolean): Promise<TestLaboratory> {
  const { services, clock } = testApp
  const wanted = keys.filter((key) => withClient || key !== 'client')
  const accounts = await makeAccounts(
    testApp,
    wanted.map((key) => ({ name: people[key].name, email: emailOf(key) })),
  )
  const [labId, clientId] = [newId(), newId()]
  const manager = await services.firstRun.make(
    { ...place, id: labId },
    { ...people.manager, accountId: accounts[0]!.accountId },
  )
  const actors = wanted.map((key, index): [JourneyRole, Actor] => {
    const { name, initials, role } = people[key]
    const membershipId = key === 'manager' ? manager.membershipId : newId()
    const { accountId, sessionId } = accounts[index]!
    const person = { accountId, sessionId, labId, membershipId, name, initials, roles: [role] as Role[] }
    return [key, { kind: 'person', ...person, clientId: role === 'client' ? clientId : null }]
  })
  await services.laboratory.inLaboratory(manager, async ({ prisma }) => {
    if (withClient)
      await prisma.client.createMany({
        data: [{ labId, id: clientId, name: 'Marrowdale County Roads', contact: 'Ines Calder', address: '' }],
      })
    await prisma.membership.createMany({ data: actors.slice(1).map(([, actor]) => membershipOf(actor, clock.now())) })
  })
  const present = Object.fromEntries(actors.map(([key, actor]) => [key, { actor }]))
  return { labId, shortName: place.shortName, clientId, people: present } as unknown as TestLaboratory
}

function membershipOf({ labId, membershipId, accountId, name, initials, roles, clientId }: Actor, validFrom: Date) {
  return { labId, id: membershipId, accountId, name, initials, roles, clientId, validFrom }
}

const place = {
  shortName: 'tern-hollow',
  name: 'Tern Hollow Surfacing Laboratory',
  address: 'Unit 4, Tern Hollow Works, Marrowdale',
  contact: 'Marek Dunmore, extension 12',
  zone: 'Europe/London',
  units: 'si',
  decimalSign: 'point',
  paper: 'a4',
} as const
