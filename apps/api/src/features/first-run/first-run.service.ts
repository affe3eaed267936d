import type { FirstRun } from '@curebook/contract/first-run'
import type { Database } from '@curebook/database/open-database'
import { createHash, randomInt, timingSafeEqual } from 'node:crypto'
import type { Actor } from '#platform/actor'
import type { AttemptLimits } from '#platform/attempt-limits'
import type { Auth, Origin } from '#platform/auth'
import { canonicalJson } from '#platform/canonical-json'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { checkNewPassword } from '#platform/password-rules'
import { AppError, invalidField } from '#platform/problem'
import { newId } from '#platform/uuid'
import { insertLaboratory, insertManager, laboratoryExists, lockFirstRun } from './first-run.repository.ts'

export type FirstRunService = ReturnType<typeof createFirstRunService>

/** What a feature brings into a laboratory when it is made (built-in editions and specifications), in the same transaction. */
export type LaboratoryCreated = (tx: LaboratoryTransaction) => Promise<void>

type NewLaboratory = FirstRun['laboratory']
type NewManager = { accountId: string; name: string; initials: string }

type Dependencies = {
  database: Database
  laboratory: Laboratory
  auth: Auth
  limits: AttemptLimits
  /** From the configuration; without one a code is made when it is first asked for. */
  setupCode: string | undefined
  onLaboratoryCreated: LaboratoryCreated[]
}

/** The first laboratory and its manager, against the one-time code that the server prints. */
export function createFirstRunService({
  database,
  laboratory,
  auth,
  limits,
  setupCode,
  onLaboratoryCreated,
}: Dependencies) {
  const code = setupCode ?? newCode()

  /** Makes a laboratory with its manager. `only` = refused when any laboratory stands. */
  async function make(place: NewLaboratory, manager: NewManager, { only = false } = {}): Promise<Actor> {
    const actor: Actor = {
      kind: 'person',
      sessionId: null,
      labId: place.id,
      membershipId: newId(),
      ...manager,
      roles: ['manager'],
      clientId: null,
    }
    await laboratory.inLaboratory(actor, async (tx) => {
      if (only) {
        await lockFirstRun(tx)
        if (await laboratoryExists(tx.prisma)) throw alreadyMade()
      }
      await insertLaboratory(tx, {
        ...place,
        closedDays: canonicalJson({ weekdays: [6, 7], dates: [] }),
        shifts: canonicalJson([{ from: '07:00', to: '15:30' }]),
        language: 'en',
        accreditation: null,
      })
      await insertManager(tx)
      tx.record({
        action: 'laboratory:create',
        subjectKind: 'laboratory',
        subjectId: place.id,
        topics: ['laboratory', 'people'],
        content: { laboratory: { ...place }, manager: { ...manager, membership: actor.membershipId } },
      })
      for (const created of onLaboratoryCreated) await created(tx)
    })
    return actor
  }

  return {
    make,

    needed: async (): Promise<boolean> => !(await laboratoryExists(database.prisma)),

    /** The code to print when a first run is needed; null when a laboratory stands. */
    codeToPrint: async (): Promise<string | null> => ((await laboratoryExists(database.prisma)) ? null : code),

    async run(input: FirstRun, origin: Origin): Promise<{ labId: string; shortName: string }> {
      await limits.countAddress(origin.address)
      if (await laboratoryExists(database.prisma)) throw alreadyMade()
      if (!isSame(input.code, code))
        throw new AppError('not-allowed', 'The code is not the one that the server printed at its start.', {
          errors: [{ path: 'code', message: 'Not the code that the server printed' }],
        })
      const { laboratory: place, manager } = input
      checkNewPassword('manager.password', manager.password, [manager.email, manager.name, place.name, place.shortName])
      const { accountId, made } = await accountFor(manager, origin)
      try {
        await make(place, { accountId, name: manager.name, initials: manager.initials }, { only: true })
      } catch (error) {
        if (made) await auth.removeAccount(accountId)
        throw error
      }
      return { labId: place.id, shortName: place.shortName }
    },
  }

  async function accountFor(
    manager: FirstRun['manager'],
    origin: Origin,
  ): Promise<{ accountId: string; made: boolean }> {
    const existing = await auth.accountByEmail(manager.email)
    if (!existing) return { accountId: await auth.createAccount(manager), made: true }
    // An earlier try that was cut off after the account, or an installation whose laboratory was not restored.
    await auth.provePassword(existing.id, manager.password, origin.address).catch(() => {
      throw invalidField('manager.password', 'This e-mail address has an account already. Enter its password.')
    })
    return { accountId: existing.id, made: false }
  }
}

function alreadyMade(): AppError {
  return new AppError('wrong-state', 'A laboratory stands already. Ask its manager for an invitation.')
}

/** Letters and digits without look-alikes, in groups to read aloud. */
function newCode(): string {
  const letters = 'abcdefghjkmnpqrstuvwxyz23456789'
  const group = () => Array.from({ length: 4 }, () => letters[randomInt(letters.length)]).join('')
  return [group(), group(), group(), group()].join('-')
}

function isSame(given: string, right: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text.trim().toLowerCase()).digest()
  return timingSafeEqual(digest(given), digest(right))
}
