import type { PrismaClient } from '@curebook/database/client'
import { betterAuth } from 'better-auth'
import { prismaAdapter } from 'better-auth/adapters/prisma'
import { twoFactor } from 'better-auth/plugins/two-factor'
import { hashPassword, isPassword } from './password-hash.ts'
import { passwordMaximum } from './password-rules.ts'
import { newId } from './uuid.ts'

export type AccountLibrary = ReturnType<typeof createAccountLibrary>

/** Header in which the client's address reaches the library; set by us on every call, never taken from outside. */
export const addressHeader = 'x-client-address'

export const sessionHours = 12

/**
 * The library for accounts, sessions and the second factor, on the identity login. Sign-up stays closed: accounts come from
 * invitations and the first run. Its own limiter is off, ours counts for account and address (attempt-limits.ts).
 */
export function createAccountLibrary({
  prisma,
  secret,
  publicUrl,
}: {
  prisma: PrismaClient
  secret: string
  publicUrl: string | undefined
}) {
  return betterAuth({
    appName: 'Curebook',
    baseURL: publicUrl ?? 'http://localhost',
    secret,
    database: prismaAdapter(prisma, { provider: 'postgresql' }),
    telemetry: { enabled: false },
    logger: { disabled: true },
    rateLimit: { enabled: false },
    emailAndPassword: {
      enabled: true,
      disableSignUp: true,
      // New passwords pass password-rules.ts; the bounds here only must not refuse what those allow.
      minPasswordLength: 1,
      maxPasswordLength: 4 * passwordMaximum,
      password: { hash: hashPassword, verify: ({ hash, password }) => isPassword(password, hash) },
    },
    session: {
      modelName: 'identitySession',
      expiresIn: sessionHours * 3600,
      disableSessionRefresh: true,
      cookieCache: { enabled: false },
    },
    user: { modelName: 'identityUser' },
    account: { modelName: 'identityAccount' },
    verification: { modelName: 'identityVerification' },
    plugins: [twoFactor({ issuer: 'Curebook', schema: { twoFactor: { modelName: 'identityTwoFactor' } } })],
    advanced: {
      cookiePrefix: 'curebook',
      useSecureCookies: publicUrl?.startsWith('https:') ?? false,
      database: { generateId: () => newId() },
      ipAddress: { ipAddressHeaders: [addressHeader] },
    },
  })
}
