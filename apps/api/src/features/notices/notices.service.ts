import type { Notices } from '@curebook/contract/notices'
import type { MailService } from '#features/mail/mail.service'
import type { Actor } from '#platform/actor'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { notFound } from '#platform/problem'
import { rowsSqlOf } from '#platform/sql-rows'
import { newId } from '#platform/uuid'
import { type Made, noticesOf } from './assignment-notices.ts'
import { toNotices } from './notices.mapper.ts'
import { countUnseen, findUnseen, insertNotices, insertSeen, isMine } from './notices.repository.ts'

export type NoticesService = ReturnType<typeof createNoticesService>

/** As many as one reads at the top of a screen; seen ones make place for the others. */
const listed = 50

/** What a person is told on their first screen because somebody else decided it, until they say that they have seen it. */
export function createNoticesService({
  laboratory,
  mail,
}: {
  laboratory: Laboratory
  mail: Pick<MailService, 'writeNotices'>
}) {
  return {
    unseen: (actor: Actor): Promise<Notices> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const sql = rowsSqlOf(tx)
        return { count: await countUnseen(sql), items: toNotices(await findUnseen(sql, listed)) }
      }),

    /** Said again, it stays as it was said first. */
    see: (actor: Actor, id: string): Promise<Notices> =>
      laboratory.inLaboratory(actor, async (tx) => {
        if (!(await isMine(tx, id))) throw notFound('notice')
        if (await insertSeen(tx, id))
          tx.record({ action: 'notice:see', subjectKind: 'notice', subjectId: id, topics: ['notices'] })
        const sql = rowsSqlOf(tx)
        return { count: await countUnseen(sql), items: toNotices(await findUnseen(sql, listed)) }
      }),

    /** In the transaction of the assignments: who has the tests now and who had them are told, one notice each. */
    tellOfAssignments: async (
      tx: LaboratoryTransaction,
      made: readonly Made[],
      { to, reason }: { to: string | null; reason: string | null },
    ): Promise<void> => {
      const notices = noticesOf(made, { to, by: tx.actor.membershipId }).map((draft) => ({ ...draft, id: newId() }))
      if (notices.length === 0) return
      await insertNotices(tx, notices, reason)
      await mail.writeNotices(tx, notices, { to, reason })
      for (const { id, toId, kind, assignmentIds } of notices)
        tx.record({
          action: 'notice:create',
          subjectKind: 'notice',
          subjectId: id,
          topics: ['notices'],
          content: { to: toId, kind, reason, assignments: [...assignmentIds] },
        })
    },
  }
}
