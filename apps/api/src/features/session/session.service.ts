import type {
  ChangePassword,
  DeviceSession,
  OwnMembership,
  SecondFactorSetup,
  Session,
  SignIn,
} from '@curebook/contract/session'
import type { Database } from '@curebook/database/open-database'
import type { SignedIn } from '#platform/actor'
import type { Auth, Origin } from '#platform/auth'
import type { Clock } from '#platform/clock'
import type { Identify } from '#platform/identify'
import { checkNewPassword } from '#platform/password-rules'
import { AppError } from '#platform/problem'
import { codeSquare } from '#platform/code-square'
import type { DeviceService } from './device.service.ts'
import { readMemberships } from './session.repository.ts'

export type SessionService = ReturnType<typeof createSessionService>

/** Signing in and out, the signed-in person's laboratories, password, second factor and devices. */
export function createSessionService({
  database,
  clock,
  auth,
  identify,
  devices,
}: {
  database: Database
  clock: Clock
  auth: Auth
  identify: Identify
  devices: Pick<DeviceService, 'admit' | 'leave'>
}) {
  async function read(signedIn: SignedIn): Promise<Session> {
    const [user, memberships] = await Promise.all([
      auth.accountOf(signedIn.accountId),
      readMemberships(database, signedIn.token, clock.now()),
    ])
    return {
      account: { id: user.id, name: user.name, email: user.email, secondFactor: user.twoFactorEnabled === true },
      expiresAt: signedIn.expiresAt.toISOString(),
      memberships: memberships.map((row): OwnMembership => ({
        labId: row.lab_id,
        shortName: row.short_name,
        laboratory: row.laboratory,
        membershipId: row.membership_id,
        name: row.name,
        initials: row.initials,
        roles: row.roles,
        clientId: row.client_id,
      })),
    }
  }

  /** The new session, and the cookie by which its browser is known to a shift that shares it. */
  async function begin(token: string, origin: Origin): Promise<{ cookies: string[]; session: Session }> {
    const identity = await identify(token, null)
    if (!identity) throw new AppError('not-signed-in', 'The session ended at once. Sign in again.')
    return { cookies: await devices.admit(identity.signedIn, origin), session: await read(identity.signedIn) }
  }

  return {
    read,

    /** Signs in; a second factor that is on is asked for by the code `second-factor-needed`, with its cookies set. */
    async signIn({ email, password }: SignIn, origin: Origin): Promise<{ cookies: string[]; session: Session | null }> {
      const { cookies, token } = await auth.signIn(email, password, origin)
      if (token === undefined) return { cookies, session: null }
      const begun = await begin(token, origin)
      return { cookies: [...cookies, ...begun.cookies], session: begun.session }
    },

    async signInSecond(code: string, origin: Origin): Promise<{ cookies: string[]; session: Session }> {
      const { cookies, token } = await auth.signInSecond(code, origin)
      const begun = await begin(token, origin)
      return { cookies: [...cookies, ...begun.cookies], session: begun.session }
    },

    async signOut(signedIn: SignedIn, origin: Origin): Promise<void> {
      await devices.leave(signedIn, origin)
      await auth.endSession(signedIn.accountId, signedIn.sessionId)
    },
    signOutEverywhere: ({ accountId }: SignedIn) => auth.endAllSessions(accountId),

    async changePassword(signedIn: SignedIn, { current, next }: ChangePassword, origin: Origin): Promise<void> {
      const user = await auth.accountOf(signedIn.accountId)
      const laboratories = await readMemberships(database, signedIn.token, clock.now())
      checkNewPassword('next', next, [
        user.name,
        user.email,
        ...laboratories.flatMap(({ laboratory, short_name }) => [laboratory, short_name]),
      ])
      await auth.provePassword(signedIn.accountId, current, origin.address)
      await auth.setPassword(signedIn.accountId, next, signedIn.sessionId)
    },

    async devices(signedIn: SignedIn): Promise<DeviceSession[]> {
      const sessions = await auth.sessionsOf(signedIn.accountId)
      return sessions.map((session) => ({
        id: session.id,
        current: session.id === signedIn.sessionId,
        address: session.ipAddress,
        agent: session.userAgent,
        startedAt: session.createdAt.toISOString(),
        lastSeenAt: session.lastSeenAt.toISOString(),
      }))
    },
    endDevice: (signedIn: SignedIn, sessionId: string) => auth.endSession(signedIn.accountId, sessionId),

    async beginSecondFactor(...given: Parameters<Auth['beginSecondFactor']>): Promise<SecondFactorSetup> {
      const setup = await auth.beginSecondFactor(...given)
      return { ...setup, square: codeSquare(setup.uri) }
    },
    confirmSecondFactor: auth.confirmSecondFactor,
    endSecondFactor: auth.endSecondFactor,
  }
}
