import { openDatabase } from '@curebook/database/open-database'
import { builtInMethods } from '@curebook/trade/methods/catalogue'
import type { Role } from '@curebook/contract/common'
import type { Actor } from '../../apps/api/src/platform/actor.ts'
import { createControlledClock } from '../../apps/api/src/platform/clock.ts'
import { newId } from '../../apps/api/src/platform/uuid.ts'
import { createServices } from '../../apps/api/src/services.ts'
import { testSecret, type TestApp } from './app.ts'
import { makeAccounts, testPassword } from './factories/account.ts'
import type { Product } from './journey-product.ts'

export type JourneyRole = 'manager' | 'technician' | 'technician2' | 'engineer' | 'auditor'
export type JourneyLaboratory = {
  readonly labId: string
  readonly shortName: string
  readonly emails: Readonly<Record<JourneyRole, string>>
  readonly password: string
}

const people: Record<JourneyRole, { name: string; initials: string; role: Role }> = {
  manager: { name: 'Marek Dunmore', initials: 'MD', role: 'manager' },
  technician: { name: 'Ada Lindqvist', initials: 'AL', role: 'technician' },
  technician2: { name: 'Bram Osei', initials: 'BO', role: 'technician' },
  engineer: { name: 'Elin Marsh', initials: 'EM', role: 'engineer' },
  auditor: { name: 'Cora Whitlow', initials: 'CW', role: 'auditor' },
}

/**
 * A laboratory with its people, who can sign in. How these come in by screen is the first run's journey (first-run.test.ts);
 * the others begin here. All names are invented.
 */
export async function makeJourneyLaboratory({ database }: Product, { at }: { at: string }): Promise<JourneyLaboratory> {
  const { appUrl, identityUrl, sealerUrl } = database
  const opened = await openDatabase({ appUrl, identityUrl, sealerUrl })
  const config = { publicUrl: undefined, secrets: { authSecret: testSecret, setupCode: undefined } }
  const clock = createControlledClock(at)
  const services = createServices({ database: opened, clock, methods: builtInMethods, config })
  try {
    const keys = Object.keys(people) as JourneyRole[]
    const emails = Object.fromEntries(keys.map((key) => [key, `${key}@ternhollow.example`])) as Record<
      JourneyRole,
      string
    >
    const accounts = await makeAccounts(
      { database: opened, config } as unknown as TestApp,
      keys.map((key) => ({ name: people[key].name, email: emails[key] })),
    )
    const labId = newId()
    const shortName = 'tern-hollow'
    const place = {
      id: labId,
      shortName,
      name: 'Tern Hollow Surfacing Laboratory',
      address: 'Unit 4, Tern Hollow Works, Marrowdale',
      contact: 'Marek Dunmore, extension 12',
      zone: 'Europe/London',
      units: 'si',
      decimalSign: 'point',
      paper: 'a4',
    } as const
    const [first, ...others] = keys.map((key, index) => ({ ...people[key], accountId: accounts[index]!.accountId }))
    const manager: Actor = await services.firstRun.make(place, first!)
    await services.laboratory.inLaboratory(manager, async ({ prisma }) => {
      await prisma.membership.createMany({
        data: others.map(({ accountId, name, initials, role }) => ({
          labId,
          id: newId(),
          accountId,
          name,
          initials,
          roles: [role],
          clientId: null,
          validFrom: new Date(at),
        })),
      })
    })
    return { labId, shortName, emails, password: testPassword }
  } finally {
    await opened.close()
  }
}
