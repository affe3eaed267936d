import { z } from 'zod'
import { IdSchema, InstantSchema, RoleSchema } from './common.ts'

/** A laboratory that the signed-in person may enter, and as what. */
export const OwnMembershipSchema = z.object({
  labId: IdSchema,
  shortName: z.string(),
  laboratory: z.string(),
  membershipId: IdSchema,
  name: z.string(),
  initials: z.string(),
  roles: z.array(RoleSchema),
  clientId: IdSchema.nullable(),
})
export type OwnMembership = z.infer<typeof OwnMembershipSchema>

export const SessionSchema = z.object({
  account: z.object({ id: IdSchema, name: z.string(), email: z.string(), secondFactor: z.boolean() }),
  expiresAt: InstantSchema,
  memberships: z.array(OwnMembershipSchema),
})
export type Session = z.infer<typeof SessionSchema>

export const EmailSchema = z.email('Enter an e-mail address, like name@laboratory.example').max(254)

/** A password as sent when signing in: any text, compared whole. */
export const PasswordSchema = z.string().min(1, 'Enter your password').max(512)

export const SignInSchema = z.strictObject({ email: EmailSchema, password: PasswordSchema })
export type SignIn = z.infer<typeof SignInSchema>

/** Six digits of the second factor, or one of its backup codes. */
export const SecondFactorSchema = z.strictObject({ code: z.string().trim().min(6).max(20) })
export type SecondFactor = z.infer<typeof SecondFactorSchema>

export const ChangePasswordSchema = z.strictObject({ current: PasswordSchema, next: z.string().max(512) })
export type ChangePassword = z.infer<typeof ChangePasswordSchema>

export const ConfirmPasswordSchema = z.strictObject({ password: PasswordSchema })

/** A square for a camera: cells a side, and one SVG path of its dark cells, each one unit wide. */
export const CodeSquareSchema = z.object({ size: z.number().int(), path: z.string() })
export type CodeSquare = z.infer<typeof CodeSquareSchema>

export const SecondFactorSetupSchema = z.object({
  uri: z.string(),
  /** The same address, to be read by a phone's camera. */
  square: CodeSquareSchema,
  backupCodes: z.array(z.string()),
})
export type SecondFactorSetup = z.infer<typeof SecondFactorSetupSchema>

/** A device that is signed in. */
export const DeviceSessionSchema = z.object({
  id: IdSchema,
  current: z.boolean(),
  address: z.string().nullable(),
  agent: z.string().nullable(),
  startedAt: InstantSchema,
  lastSeenAt: InstantSchema,
})
export type DeviceSession = z.infer<typeof DeviceSessionSchema>
