import type { CutOff, SignedInDevice } from '@curebook/contract/signed-in'
import type { Database } from '@curebook/database/open-database'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { notFound } from '#platform/problem'
import { createSessionRows, findCutOff, lockSession, membersWithAccounts } from './signed-in.repository.ts'

export type SignedInService = ReturnType<typeof createSignedInService>

/** Where people of a laboratory are signed in, and how a device that was lost is cut off. */
export function createSignedInService({ database, laboratory }: { database: Database; laboratory: Laboratory }) {
  const sessions = createSessionRows(database)
  return {
    list: (actor: Actor): Promise<SignedInDevice[]> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const members = await membersWithAccounts(tx)
        const rows = await sessions.ofAccounts([...members.keys()])
        return rows.map((row) => {
          const { id, name, initials } = members.get(row.accountId)!
          return {
            id: row.id,
            person: { membershipId: id, name, initials },
            current: row.id === actor.sessionId,
            agent: row.agent,
            address: row.address,
            startedAt: row.createdAt.toISOString(),
            lastSeenAt: row.lastSeenAt.toISOString(),
            byPin: row.admitted
              .filter((account) => account !== row.accountId)
              .flatMap((account) => members.get(account)?.name ?? [])
              .sort(),
          }
        })
      }),

    /**
     * Ends the session of a device, and with it the way back by PIN of everybody of this laboratory. The order is on record
     * before it is carried out: asked again it is carried out again, and whoever comes second with another reason finds it done.
     * People of another laboratory on the same device are none of this one's.
     */
    async cutOff(actor: Actor, sessionId: string, { reason }: CutOff): Promise<void> {
      const { accounts, deviceId } = await laboratory.inLaboratory(actor, async (tx) => {
        await lockSession(tx, sessionId)
        const before = await findCutOff(tx, sessionId)
        if (before !== null) return { accounts: before, deviceId: null }
        const members = await membersWithAccounts(tx)
        const session = (await sessions.ofAccounts([...members.keys()])).find(({ id }) => id === sessionId)
        if (!session) throw notFound('signed-in device')
        const { accountId, admitted } = session
        const ended = [accountId, ...admitted.filter((account) => account !== accountId && members.has(account))]
        tx.record({
          action: 'signed-in:end',
          subjectKind: 'device-session',
          subjectId: sessionId,
          topics: ['signed-in'],
          content: {
            reason,
            person: members.get(accountId)!.id,
            people: ended.map((account) => members.get(account)!.id),
            accounts: ended,
            agent: session.agent,
            address: session.address,
            lastSeenAt: session.lastSeenAt.toISOString(),
          },
        })
        return { accounts: ended, deviceId: session.deviceId }
      })
      await sessions.end(sessionId, accounts, deviceId)
    },
  }
}
