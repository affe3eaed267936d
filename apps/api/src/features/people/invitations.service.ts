import type {
  Accepted,
  AcceptInvitation,
  Invitation,
  InvitationOffer,
  Invite,
  Invited,
} from '@curebook/contract/people'
import type { Database } from '@curebook/database/open-database'
import { createHash, randomBytes } from 'node:crypto'
import type { Actor } from '#platform/actor'
import type { AttemptLimits } from '#platform/attempt-limits'
import type { Auth, Origin } from '#platform/auth'
import type { Clock } from '#platform/clock'
import { type Created, createOnce } from '#platform/creation'
import { isUniqueViolation } from '#platform/database-errors'
import type { Identify } from '#platform/identify'
import type { Laboratory } from '#platform/laboratory'
import { checkNewPassword } from '#platform/password-rules'
import { AppError, invalidField, notFound } from '#platform/problem'
import { newId } from '#platform/uuid'
import { initialsOf } from './initials.ts'
import {
  closeInvitation,
  findInvitation,
  findOffer,
  insertInvitation,
  listInvitations,
  type OfferRow,
} from './invitations.repository.ts'
import { toInvitation } from './people.mapper.ts'
import { insertPerson } from './people.repository.ts'
import { checkClient } from './people.service.ts'

export type InvitationsService = ReturnType<typeof createInvitationsService>

const daysOpen = 7

type Dependencies = {
  database: Database
  laboratory: Laboratory
  clock: Clock
  auth: Auth
  identify: Identify
  limits: AttemptLimits
}

/** The only way into a laboratory: a one-time token, kept as its hash, for one e-mail address. */
export function createInvitationsService({ database, laboratory, clock, auth, identify, limits }: Dependencies) {
  async function openOffer(token: string): Promise<OfferRow> {
    const offer = await findOffer(database, hashOf(token))
    if (!offer) throw new AppError('not-found', 'There is no such invitation. Open the whole link that you were sent.')
    if (offer.accepted_at)
      throw new AppError(
        'wrong-state',
        'This invitation was accepted before. Sign in with the account that accepted it.',
      )
    if (offer.revoked_at || offer.expires_at <= clock.now())
      throw new AppError('expired', 'This invitation no longer holds. Ask the laboratory’s manager for a new one.')
    return offer
  }

  return {
    list: (actor: Actor): Promise<Invitation[]> =>
      laboratory.inLaboratory(actor, async (tx) => (await listInvitations(tx)).map((row) => toInvitation(row, tx.at))),

    /** Invites somebody. The token is shown in this answer alone; the same request again has none. */
    invite(actor: Actor, input: Invite): Promise<Created<Invited>> {
      const token = randomBytes(32).toString('base64url')
      return createOnce<Invited>(laboratory, actor, {
        subjectKind: 'invitation',
        id: input.id,
        input,
        find: async (tx) => {
          const stored = await findInvitation(tx, input.id)
          return stored && { invitation: toInvitation(stored, tx.at), token: null, path: null }
        },
        create: async (tx) => {
          await checkClient(tx, input.roles, input.clientId)
          const row = {
            ...input,
            email: input.email.toLowerCase(),
            at: tx.at,
            expiresAt: new Date(tx.at.getTime() + daysOpen * 86_400_000),
            acceptedAt: null,
            revokedAt: null,
          }
          await insertInvitation(tx, {
            ...row,
            labId: actor.labId,
            tokenHash: new Uint8Array(hashOf(token)),
            byId: actor.membershipId,
          })
          const invitation = toInvitation(row, tx.at)
          tx.record({
            action: 'people:invite',
            subjectKind: 'invitation',
            subjectId: input.id,
            topics: ['people'],
            content: { invitation },
          })
          return { invitation, token, path: `/invitation#${token}` }
        },
      })
    },

    revoke: (actor: Actor, id: string): Promise<Invitation> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const before = await findInvitation(tx, id)
        if (!before) throw notFound('invitation')
        if (!(await closeInvitation(tx, id, { revokedAt: tx.at })))
          throw new AppError('wrong-state', 'This invitation is not open any more.')
        tx.record({ action: 'people:revoke-invitation', subjectKind: 'invitation', subjectId: id, topics: ['people'] })
        return toInvitation({ ...before, revokedAt: tx.at }, tx.at)
      }),

    /** What a token offers, for the page where it is accepted. */
    async lookUp(token: string, origin: Origin): Promise<InvitationOffer> {
      await limits.countAddress(origin.address)
      const offer = await openOffer(token)
      return {
        laboratory: offer.laboratory,
        shortName: offer.short_name,
        email: offer.email,
        name: offer.name,
        roles: offer.roles,
        accountExists: (await auth.accountByEmail(offer.email)) !== null,
        expiresAt: offer.expires_at.toISOString(),
      }
    },

    /** Accepts: makes the account with its password, or joins the signed-in account of the invited address. */
    async accept(input: AcceptInvitation, sessionToken: string | undefined, origin: Origin): Promise<Accepted> {
      await limits.countAddress(origin.address)
      const offer = await openOffer(input.token)
      const name = input.name ?? offer.name
      const account = await accountFor(offer, input, sessionToken)
      const actor: Actor = {
        kind: 'person',
        accountId: account.id,
        sessionId: null,
        labId: offer.lab_id,
        membershipId: newId(),
        name,
        initials: input.initials ?? initialsOf(name),
        roles: offer.roles,
        clientId: offer.client_id,
      }
      try {
        await join(offer, actor)
      } catch (error) {
        if (account.made) await auth.removeAccount(account.id)
        if (!isUniqueViolation(error)) throw error
        throw new AppError(
          'conflict',
          'This account is in the laboratory already. Its manager can change roles and the end of its time there.',
        )
      }
      return { labId: offer.lab_id, shortName: offer.short_name, membershipId: actor.membershipId }
    },
  }

  async function accountFor(
    offer: OfferRow,
    { name, password }: AcceptInvitation,
    sessionToken: string | undefined,
  ): Promise<{ id: string; made: boolean }> {
    const existing = await auth.accountByEmail(offer.email)
    if (existing) {
      const identity = sessionToken === undefined ? null : await identify(sessionToken, null)
      if (identity?.signedIn.accountId === existing.id) return { id: existing.id, made: false }
      throw new AppError(
        'not-signed-in',
        `${offer.email} has an account. Sign in with it, then open the invitation again.`,
      )
    }
    if (password === undefined) throw invalidField('password', 'Choose a password.')
    checkNewPassword('password', password, [offer.email, offer.laboratory, offer.short_name, offer.name, name ?? ''])
    try {
      return { id: await auth.createAccount({ name: name ?? offer.name, email: offer.email, password }), made: true }
    } catch (error) {
      if (!isUniqueViolation(error)) throw error
      throw new AppError(
        'wrong-state',
        'This invitation was accepted at the same moment. Sign in with the account that accepted it.',
      )
    }
  }

  /** As the person who joins: their membership is written first, and their entry names it. */
  function join(offer: OfferRow, actor: Actor): Promise<void> {
    // Joining writes as the laboratory's own act; a client's policies would refuse the membership.
    return laboratory.inLaboratory({ ...actor, clientId: null }, async (tx) => {
      await insertPerson(tx, {
        labId: actor.labId,
        id: actor.membershipId,
        accountId: actor.accountId,
        name: actor.name,
        initials: actor.initials,
        roles: actor.roles,
        clientId: actor.clientId,
        validFrom: tx.at,
      })
      if (!(await closeInvitation(tx, offer.invitation_id, { acceptedAt: tx.at, membershipId: actor.membershipId }))) {
        throw new AppError('wrong-state', 'This invitation was accepted or taken back at the same moment.')
      }
      tx.record({
        action: 'invitation:accept',
        subjectKind: 'membership',
        subjectId: actor.membershipId,
        topics: ['people'],
        content: {
          invitation: offer.invitation_id,
          name: actor.name,
          initials: actor.initials,
          roles: actor.roles,
          client: actor.clientId,
        },
      })
    })
  }
}

function hashOf(token: string): Buffer {
  return createHash('sha256').update(token).digest()
}
