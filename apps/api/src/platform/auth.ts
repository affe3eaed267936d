import type { Database } from '@curebook/database/open-database'
import type { Actor, SignedIn } from './actor.ts'
import { type AccountLibrary, addressHeader } from './account-library.ts'
import type { AttemptLimits } from './attempt-limits.ts'
import { hashPassword, isPassword } from './password-hash.ts'
import { AppError } from './problem.ts'
import { newId } from './uuid.ts'

/** Where a request comes from: its address by our own count, its browser, its cookies. */
export type Origin = { address: string; agent: string | undefined; cookie: string | undefined }

/** What an act of the library sets on the browser. */
export type Cookies = string[]

export type Auth = ReturnType<typeof createAuth>

/** Proving who one is: signing in and out, the second factor, the password again before signing. */
export function createAuth({
  database,
  library,
  limits,
}: {
  database: Database
  library: AccountLibrary
  limits: AttemptLimits
}) {
  const identity = database.identityPrisma

  async function accountOf(accountId: string) {
    const user = await identity.identityUser.findUnique({ where: { id: accountId } })
    if (!user) throw new AppError('not-signed-in', 'This account is gone.')
    return user
  }

  async function endAllSessions(accountId: string, except?: string): Promise<void> {
    // The ways to another session first, by PIN and by the second half of a sign-in: none is begun behind the ending.
    await identity.identityDevicePerson.deleteMany({ where: { userId: accountId } })
    await identity.identityVerification.deleteMany({ where: { value: accountId } })
    await identity.identitySession.deleteMany({ where: { userId: accountId, ...(except && { id: { not: except } }) } })
  }

  /** The hash of an account's password, by its address; undefined where there is none. */
  async function passwordOf(email: string): Promise<{ accountId: string; hash: string | null } | undefined> {
    const credential = await identity.identityAccount.findFirst({
      where: { providerId: 'credential', user: { is: { email: email.toLowerCase() } } },
      select: { userId: true, password: true },
    })
    return credential === null ? undefined : { accountId: credential.userId, hash: credential.password }
  }

  async function provePassword(accountId: string, password: string, address: string): Promise<void> {
    const { email } = await accountOf(accountId)
    await limits.beforeAttempt(email, address)
    const credential = await identity.identityAccount.findFirst({
      where: { userId: accountId, providerId: 'credential' },
    })
    if (!credential?.password || !(await isPassword(password, credential.password))) {
      throw new AppError('wrong-password', 'The password is wrong. Nothing was signed or changed.', {
        errors: [{ path: 'password', message: 'The password is wrong' }],
      })
    }
    await limits.afterSuccess(email)
  }

  /**
   * Acts on the second factor of one account follow one another: the library looks whether there is one and writes then. The
   * lock waits on another pool than the library's statements.
   */
  async function inTurn<T>(accountId: string, work: () => Promise<T>): Promise<T> {
    return database.prisma.$transaction(
      async (tx) => {
        await tx.$executeRaw`select pg_advisory_xact_lock(hashtextextended(${`second factor ${accountId}`}, 0))`
        return work()
      },
      { maxWait: 10_000, timeout: 60_000 },
    )
  }

  return {
    /** The library's tables are checked at once: it would find out at the first sign-in only. */
    async checkSchema(): Promise<void> {
      await (await library.$context).checkSchema?.()
    },

    /** Signs in. `second` = the password held, the second factor is asked for next. */
    async signIn(
      email: string,
      password: string,
      origin: Origin,
    ): Promise<{ cookies: Cookies; second: boolean; token: string | undefined }> {
      await limits.beforeAttempt(email, origin.address)
      const proven = await passwordOf(email)
      const answer = await library.api.signInEmail({
        body: { email: email.toLowerCase(), password },
        headers: headersOf(origin),
        asResponse: true,
      })
      const refusal = new AppError(
        'wrong-credentials',
        'The e-mail address or the password is wrong. Both are compared exactly as typed.',
      )
      if (answer.status >= 400) throw await problemOf(answer, refusal)
      const body = (await answer.json()) as { token?: string; twoFactorRedirect?: boolean }
      const second = body.twoFactorRedirect === true
      // A new password was set while this one was looked at: it signed every device out, and this is one of them.
      if (proven === undefined || (await passwordOf(email))?.hash !== proven.hash) {
        if (body.token !== undefined) await identity.identitySession.deleteMany({ where: { token: body.token } })
        if (proven) await identity.identityVerification.deleteMany({ where: { value: proven.accountId } })
        throw refusal
      }
      // With a second factor only its code proves the account, and ends the count.
      if (!second) await limits.afterSuccess(email)
      return { cookies: answer.headers.getSetCookie(), second, token: second ? undefined : body.token }
    },

    /** The second half of a sign-in: six digits, or a backup code. */
    async signInSecond(code: string, origin: Origin): Promise<{ cookies: Cookies; token: string }> {
      await limits.countAddress(origin.address)
      const act = /^\d{6}$/.test(code) ? library.api.verifyTOTP : library.api.verifyBackupCode
      const answer = (await act({
        body: { code },
        headers: headersOf(origin),
        asResponse: true,
      })) as unknown as Response
      if (answer.status >= 400)
        throw await problemOf(
          answer,
          new AppError('wrong-credentials', 'The code is wrong or its time is over. Enter the one that shows now.', {
            errors: [{ path: 'code', message: 'Not the right code' }],
          }),
        )
      const { token } = (await answer.json()) as { token: string }
      return { cookies: answer.headers.getSetCookie(), token }
    },

    /** Ends one session, or all of an account's. */
    async endSession(accountId: string, sessionId: string): Promise<void> {
      await identity.identityDevicePerson.deleteMany({
        where: { userId: accountId, device: { is: { sessionId } } },
      })
      await identity.identitySession.deleteMany({ where: { id: sessionId, userId: accountId } })
    },
    endAllSessions,

    accountOf,

    sessionsOf: (accountId: string) =>
      identity.identitySession.findMany({
        where: { userId: accountId, expiresAt: { gt: new Date() } },
        orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
      }),

    accountByEmail: (email: string) => identity.identityUser.findUnique({ where: { email: email.toLowerCase() } }),

    /** Makes an account with a password; the password has passed the rules. Conflict when the address has one. */
    async createAccount({
      id = newId(),
      name,
      email,
      password,
    }: {
      id?: string
      name: string
      email: string
      password: string
    }): Promise<string> {
      const now = new Date()
      const hash = await hashPassword(password)
      await identity.$transaction(async (tx) => {
        await tx.identityUser.createMany({
          data: [{ id, name, email: email.toLowerCase(), emailVerified: true, createdAt: now, updatedAt: now }],
        })
        await tx.identityAccount.createMany({
          data: [
            {
              id: newId(),
              accountId: id,
              providerId: 'credential',
              userId: id,
              password: hash,
              createdAt: now,
              updatedAt: now,
            },
          ],
        })
      })
      return id
    },
    async removeAccount(accountId: string): Promise<void> {
      await identity.identityUser.deleteMany({ where: { id: accountId } })
    },

    /** Sets a new password, which has passed the rules, and signs every other device out. */
    async setPassword(accountId: string, password: string, keepSession: string | undefined): Promise<void> {
      const { email } = await accountOf(accountId)
      await identity.identityAccount.updateMany({
        where: { userId: accountId, providerId: 'credential' },
        data: { password: await hashPassword(password), updatedAt: new Date() },
      })
      await endAllSessions(accountId, keepSession)
      await limits.afterSuccess(email)
    },

    provePassword,

    /**
     * The password again, before something is signed. Throws wrong-password, or too-many-requests while the account waits.
     * @returns when it was proven (real time) and by what, for the signature's record
     */
    async verifyPassword(
      actor: Actor,
      password: string,
      address = 'unknown',
    ): Promise<{ authenticatedAt: Date; means: 'password' }> {
      await provePassword(actor.accountId, password, address)
      return { authenticatedAt: new Date(), means: 'password' }
    },

    /** Begins a second factor: the address for an authenticator, and codes for the day it is lost. */
    async beginSecondFactor(signedIn: SignedIn, password: string, origin: Origin) {
      await provePassword(signedIn.accountId, password, origin.address)
      const answer = await inTurn(
        signedIn.accountId,
        async () =>
          (await library.api.enableTwoFactor({
            body: { password },
            headers: headersOf(origin),
            asResponse: true,
          })) as unknown as Response,
      )
      if (answer.status >= 400)
        throw await problemOf(answer, new AppError('wrong-state', 'A second factor is on already. Turn it off first.'))
      const { totpURI, backupCodes } = (await answer.json()) as { totpURI: string; backupCodes: string[] }
      return { uri: totpURI, backupCodes }
    },
    /** The first code of the authenticator turns the second factor on; the session is renewed. */
    async confirmSecondFactor(signedIn: SignedIn, code: string, origin: Origin): Promise<Cookies> {
      const answer = await inTurn(
        signedIn.accountId,
        async () =>
          (await library.api.verifyTOTP({
            body: { code },
            headers: headersOf(origin),
            asResponse: true,
          })) as unknown as Response,
      )
      if (answer.status >= 400)
        throw await problemOf(
          answer,
          new AppError('invalid-input', 'The code is wrong or its time is over.', {
            errors: [{ path: 'code', message: 'Not the right code' }],
          }),
        )
      return answer.headers.getSetCookie()
    },
    async endSecondFactor(signedIn: SignedIn, password: string, origin: Origin): Promise<Cookies> {
      await provePassword(signedIn.accountId, password, origin.address)
      const answer = await inTurn(
        signedIn.accountId,
        async () =>
          (await library.api.disableTwoFactor({
            body: { password },
            headers: headersOf(origin),
            asResponse: true,
          })) as unknown as Response,
      )
      if (answer.status >= 400) throw await problemOf(answer, new AppError('wrong-state', 'No second factor is on.'))
      return answer.headers.getSetCookie()
    },
  }
}

function headersOf({ address, agent, cookie }: Origin): Headers {
  return new Headers({ [addressHeader]: address, ...(agent && { 'user-agent': agent }), ...(cookie && { cookie }) })
}

/** The library's refusals come as `{ message, code }`; what is not a plain refusal is a defect. */
async function problemOf(answer: Response, refusal: AppError): Promise<AppError> {
  const text = await answer.text()
  if (answer.status >= 500)
    return new AppError('unexpected', 'The account could not be looked up. Try again.', { cause: new Error(text) })
  if (answer.status === 429)
    return new AppError('too-many-requests', 'Too many wrong codes. Wait a quarter of an hour, then sign in again.', {
      headers: { 'retry-after': '900' },
    })
  return refusal
}
