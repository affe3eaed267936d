import { randomBytes } from 'node:crypto'
import { hashPassword } from '../../../apps/api/src/platform/password-hash.ts'
import { sessionCookieName, signToken } from '../../../apps/api/src/platform/session-cookie.ts'
import { newId } from '../../../apps/api/src/platform/uuid.ts'
import { type TestApp, testSecret } from '../app.ts'

/** Everybody's password in tests; good under the rules. */
export const testPassword = 'teal kettle over nine gravel pits'

export type SignedInAccount = { accountId: string; sessionId: string; cookie: string }

let hash: Promise<string> | undefined

/** Accounts that can sign in with `testPassword`, signed in already. The hash is made once a file. */
export async function makeAccounts(
  { database, config }: TestApp,
  accounts: { name: string; email: string }[],
): Promise<SignedInAccount[]> {
  hash ??= hashPassword(testPassword)
  const password = await hash
  const now = new Date()
  const dates = { createdAt: now, updatedAt: now }
  const made = accounts.map((account) => ({
    ...account,
    id: newId(),
    sessionId: newId(),
    token: randomBytes(24).toString('base64url'),
  }))
  const { identityUser, identityAccount, identitySession } = database.identityPrisma
  await identityUser.createMany({
    data: made.map(({ id, name, email }) => ({ id, name, email, emailVerified: true, ...dates })),
  })
  await identityAccount.createMany({
    data: made.map(({ id }) => ({
      id: newId(),
      accountId: id,
      providerId: 'credential',
      userId: id,
      password,
      ...dates,
    })),
  })
  await identitySession.createMany({
    data: made.map(({ id, sessionId, token }) => ({
      id: sessionId,
      token,
      userId: id,
      expiresAt: new Date(now.getTime() + 12 * 3_600_000),
      ...dates,
    })),
  })
  return made.map(({ id, sessionId, token }) => ({
    accountId: id,
    sessionId,
    cookie: `${sessionCookieName(config.publicUrl)}=${signToken(token, testSecret)}`,
  }))
}
