import { z } from 'zod'
import { IdSchema, InstantSchema, RoleSchema } from './common.ts'
import { EmailSchema } from './session.ts'

const NameSchema = z.string().trim().min(1, 'Enter the name').max(120)
const InitialsSchema = z.string().trim().min(1, 'Enter the initials').max(6)
const RolesSchema = z
  .array(RoleSchema)
  .min(1, 'Choose at least one role')
  .refine((roles) => !roles.includes('client') || roles.length === 1, 'The role client stands alone')

/** A person in the laboratory: the actor of every record, outliving the account. */
export const PersonSchema = z.object({
  id: IdSchema,
  name: z.string(),
  initials: z.string(),
  roles: z.array(RoleSchema),
  clientId: IdSchema.nullable(),
  validFrom: InstantSchema,
  validUntil: InstantSchema.nullable(),
  /** False when the account is gone; the name stays in every record. */
  hasAccount: z.boolean(),
  version: z.number().int(),
})
export type Person = z.infer<typeof PersonSchema>

/** With If-Match. `validUntil` in the past or now takes all access away. */
export const UpdatePersonSchema = z.strictObject({
  name: NameSchema.optional(),
  initials: InitialsSchema.optional(),
  roles: RolesSchema.optional(),
  clientId: IdSchema.nullable().optional(),
  validUntil: InstantSchema.nullable().optional(),
})
export type UpdatePerson = z.infer<typeof UpdatePersonSchema>

export const InvitationStateSchema = z.enum(['open', 'accepted', 'revoked', 'expired'])

export const InvitationSchema = z.object({
  id: IdSchema,
  email: z.string(),
  name: z.string(),
  roles: z.array(RoleSchema),
  clientId: IdSchema.nullable(),
  state: InvitationStateSchema,
  invitedAt: InstantSchema,
  expiresAt: InstantSchema,
})
export type Invitation = z.infer<typeof InvitationSchema>

export const InviteSchema = z
  .strictObject({
    id: IdSchema,
    email: EmailSchema,
    name: NameSchema,
    roles: RolesSchema,
    clientId: IdSchema.nullable().default(null),
  })
  .refine(({ roles, clientId }) => roles.includes('client') === (clientId !== null), {
    path: ['clientId'],
    message: 'Name the client for the role client, and for no other role',
  })
export type Invite = z.infer<typeof InviteSchema>

/** The one answer that shows the token: afterwards only its hash is kept. `token` is null when the same request came again. */
export const InvitedSchema = z.object({
  invitation: InvitationSchema,
  token: z.string().nullable(),
  path: z.string().nullable(),
})
export type Invited = z.infer<typeof InvitedSchema>

export const InvitationTokenSchema = z.strictObject({ token: z.string().min(20).max(100) })

/** What the invited person sees before accepting. */
export const InvitationOfferSchema = z.object({
  laboratory: z.string(),
  shortName: z.string(),
  email: z.string(),
  name: z.string(),
  roles: z.array(RoleSchema),
  /** True when an account with this address stands: sign in first, then accept. */
  accountExists: z.boolean(),
  expiresAt: InstantSchema,
})
export type InvitationOffer = z.infer<typeof InvitationOfferSchema>

/** Without an account: a name and a password. Signed in with the invited address: the token alone. */
export const AcceptInvitationSchema = z.strictObject({
  token: z.string().min(20).max(100),
  name: NameSchema.optional(),
  initials: InitialsSchema.optional(),
  password: z.string().max(512).optional(),
})
export type AcceptInvitation = z.infer<typeof AcceptInvitationSchema>

export const AcceptedSchema = z.object({ labId: IdSchema, shortName: z.string(), membershipId: IdSchema })
export type Accepted = z.infer<typeof AcceptedSchema>
