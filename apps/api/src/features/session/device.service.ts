import type { DevicePeople, PinState, SetPin, SwitchPerson, Unlock } from '@curebook/contract/device'
import type { Database } from '@curebook/database/open-database'
import { randomBytes } from 'node:crypto'
import { sessionHours } from '#platform/account-library'
import type { Actor, SignedIn } from '#platform/actor'
import type { AttemptLimits } from '#platform/attempt-limits'
import type { Auth, Origin } from '#platform/auth'
import type { Laboratory } from '#platform/laboratory'
import { hashPassword, isPassword } from '#platform/password-hash'
import { AppError, notFound } from '#platform/problem'
import { sessionCookieName, signToken } from '#platform/session-cookie'
import { deviceTokenHash, newDeviceToken } from './device-cookie.ts'
import { createDeviceRows, type Device } from './device.repository.ts'

export type DeviceService = ReturnType<typeof createDeviceService>

/** After as many wrong PINs in a row the password is asked for on this device. Common practice, no source. */
const mostFailed = 5

const pinNotEnough = () =>
  new AppError(
    'wrong-state',
    'A PIN is not enough here: this person has none, did not sign in on this device, or it was wrong too often. Sign in with the password.',
  )

/** A tablet that a shift shares: whoever signed in on it comes back by PIN, within the device's own session. */
export function createDeviceService({
  database,
  laboratory,
  auth,
  limits,
  publicUrl,
  authSecret,
}: {
  database: Database
  laboratory: Laboratory
  auth: Pick<Auth, 'provePassword'>
  limits: Pick<AttemptLimits, 'countAddress'>
  publicUrl: string | undefined
  authSecret: string
}) {
  const rows = createDeviceRows(database)
  const secure = publicUrl?.startsWith('https:') ?? false

  async function deviceOf({ cookie }: Pick<Origin, 'cookie'>): Promise<Device | null> {
    const tokenHash = deviceTokenHash(cookie)
    return tokenHash ? rows.find(tokenHash) : null
  }
  async function presentDevice(origin: Origin): Promise<Device> {
    const device = await deviceOf(origin)
    if (!device)
      throw new AppError(
        'wrong-state',
        'The session of this device has ended. Sign in with your password; after that your PIN is enough again.',
      )
    return device
  }

  /**
   * Counted for address and device before the PIN is looked at, and only where this person is known to the device. The
   * account's own count is that of its password: guessed from outside it closes no screen here, and no PIN adds to it.
   */
  async function provePin(device: Device, accountId: string, pin: string, { address }: Origin): Promise<void> {
    if (!(await rows.admitted(device.id, mostFailed)).includes(accountId)) throw pinNotEnough()
    await limits.countAddress(address)
    const hash = await rows.countAttempt(device.id, accountId, mostFailed)
    if (hash === null) throw pinNotEnough()
    if (!(await isPassword(pin, hash)))
      throw new AppError('wrong-password', 'The PIN is wrong.', {
        errors: [{ path: 'pin', message: 'The PIN is wrong' }],
      })
    await rows.forgive(device.id, accountId)
  }

  return {
    /** After the password: this browser knows the person until its session ends. @returns a cookie where it is a new device */
    async admit({ accountId, sessionId }: SignedIn, origin: Origin): Promise<string[]> {
      const known = await deviceOf(origin)
      if (known) {
        await rows.admit(known.id, accountId, sessionId)
        return []
      }
      const { tokenHash, cookie } = newDeviceToken(secure)
      await rows.admit((await rows.make(tokenHash)).id, accountId, sessionId)
      return [cookie]
    },
    /** Whoever signs out does not come back by PIN. */
    async leave({ accountId }: SignedIn, origin: Pick<Origin, 'cookie'>): Promise<void> {
      const device = await deviceOf(origin)
      if (device) await rows.leave(device.id, accountId)
    },

    async people(actor: Actor, origin: Origin): Promise<DevicePeople> {
      const device = await deviceOf(origin)
      const accounts = device ? await rows.admitted(device.id, mostFailed) : []
      const members = await laboratory.inLaboratory(actor, ({ prisma }) =>
        prisma.membership.findMany({
          where: { labId: actor.labId, clientId: null, accountId: { in: [...accounts] } },
          select: { id: true, name: true, initials: true },
          orderBy: [{ name: 'asc' }, { id: 'asc' }],
        }),
      )
      return {
        people: members.map(({ id, name, initials }) => ({
          membershipId: id,
          name,
          initials,
          current: id === actor.membershipId,
        })),
        ownPin: accounts.includes(actor.accountId),
      }
    },

    /** Another person's session takes the place of this one. @returns the cookie of the new session */
    async switchTo(actor: Actor, { membershipId, pin }: SwitchPerson, origin: Origin): Promise<string> {
      const member = await laboratory.inLaboratory(actor, ({ prisma }) =>
        prisma.membership.findUnique({
          where: { labId_id: { labId: actor.labId, id: membershipId } },
          select: { accountId: true },
        }),
      )
      if (!member?.accountId) throw notFound('person')
      const device = await presentDevice(origin)
      await provePin(device, member.accountId, pin, origin)
      const token = randomBytes(24).toString('base64url')
      // Never longer than the device's own session.
      const expiresAt = new Date(device.createdAt.getTime() + sessionHours * 3_600_000)
      const replaced = await rows.replaceSession(device.id, actor.sessionId!, {
        accountId: member.accountId,
        token,
        expiresAt,
        address: origin.address,
        agent: origin.agent,
      })
      if (!replaced) throw pinNotEnough()
      const seconds = Math.max(1, Math.floor((expiresAt.getTime() - Date.now()) / 1000))
      return `${sessionCookieName(publicUrl)}=${signToken(token, authSecret)}; Max-Age=${seconds}; Path=/; HttpOnly; SameSite=Lax${secure ? '; Secure' : ''}`
    },

    /** The PIN or the password of whoever is signed in. */
    async unlock({ accountId }: SignedIn, given: Unlock, origin: Origin): Promise<void> {
      if ('password' in given) await auth.provePassword(accountId, given.password, origin.address)
      else await provePin(await presentDevice(origin), accountId, given.pin, origin)
    },

    async pinState({ accountId }: SignedIn): Promise<PinState> {
      return { set: await rows.hasPin(accountId) }
    },
    async setPin({ accountId }: SignedIn, { password, pin }: SetPin, origin: Origin): Promise<void> {
      await auth.provePassword(accountId, password, origin.address)
      await rows.setPin(accountId, await hashPassword(pin))
    },
    async endPin({ accountId }: SignedIn, password: string, origin: Origin): Promise<void> {
      await auth.provePassword(accountId, password, origin.address)
      await rows.endPin(accountId)
    },
  }
}
