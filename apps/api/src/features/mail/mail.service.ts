import type { MailState, MailWishes } from '@curebook/contract/mail'
import type { Database } from '@curebook/database/open-database'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { type Actor, type AnyActor, systemActor } from '#platform/actor'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import type { MailTransport } from './mail-transport.ts'
import { clientMail, noticeMail, windowMail } from './mail-words.ts'
import {
  addressOf,
  countTests,
  findClosing,
  findPeopleOf,
  findWaiting,
  findWishes,
  insertAttempt,
  insertMail,
  insertToldWindows,
  insertWishes,
  lockFor,
  type NewMail,
  projectNameOf,
  shortNameOf,
  tryLockFor,
  type WindowRow,
} from './mail.repository.ts'

export type MailService = ReturnType<typeof createMailService>

/** Minutes from a failed attempt to the next: doubling, an hour at most. Common practice, no source. */
const waitMinutes = (failed: number) => Math.min(60, 2 ** (failed - 1))

/** Mail that people asked for: written with what causes it, sent by whichever server gets to it first. */
export function createMailService({
  laboratory,
  database,
  methods,
  publicUrl,
  transport,
}: {
  laboratory: Laboratory
  database: Database
  methods: readonly MethodDeclaration[]
  publicUrl: string | undefined
  /** Without one nothing is sent: what is written waits. */
  transport: MailTransport | undefined
}) {
  async function benchOf(tx: LaboratoryTransaction<AnyActor>): Promise<string | null> {
    return publicUrl === undefined ? null : `${publicUrl}/l/${await shortNameOf(tx)}/bench`
  }

  async function write(tx: LaboratoryTransaction<AnyActor>, mail: NewMail): Promise<string> {
    const id = await insertMail(tx, mail)
    const { toId, subject } = mail
    tx.record({
      action: 'mail:write',
      subjectKind: 'mail',
      subjectId: id,
      topics: ['mail'],
      content: { to: toId, subject },
    })
    return id
  }

  /** Writes one mail to each person whose windows close within the minutes that they asked for; each window once. */
  async function lookAtWindows(labId: string): Promise<void> {
    await laboratory.inLaboratory(systemActor(labId), async (tx) => {
      await lockFor(tx, `mail of windows ${labId}`)
      const own = new Map<string, WindowRow[]>()
      for (const row of await findClosing(tx)) own.set(row.toId, [...(own.get(row.toId) ?? []), row])
      for (const [toId, rows] of own) {
        const words = windowMail(rows.map(toWords), await benchOf(tx))
        const mailId = await write(tx, { toId, ...words, uselessAt: rows.at(-1)!.closesAt })
        await insertToldWindows(tx, mailId, rows)
      }
    })
  }

  function toWords({ label, code, methodKey, stepKey, closesAt, zone }: WindowRow) {
    const step = methodByKey(methods, methodKey)?.steps.find(({ key }) => key === stepKey)
    const clock = new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', minute: '2-digit' })
    return { label, code, stepTitle: step?.title ?? stepKey, closes: clock.format(closesAt) }
  }

  /** One attempt, under the mail's lock: another server's waits for nothing and goes on with the next one. */
  async function attempt(send: MailTransport, labId: string, mailId: string): Promise<void> {
    await laboratory.inLaboratory(systemActor(labId), async (tx) => {
      if (!(await tryLockFor(tx, `mail ${mailId}`))) return
      // Read under the lock: it may be sent by now.
      const mail = (await findWaiting(tx)).find(({ id }) => id === mailId)
      if (!mail) return
      const { to, subject, body } = mail
      const ended = to.validUntil !== null && to.validUntil <= tx.at
      const address = to.accountId === null || ended ? null : await addressOf(database, to.accountId)
      if (address === null) {
        await insertAttempt(tx, { mailId, outcome: 'dropped', error: 'This person has no access any more.' })
        tx.record({ action: 'mail:drop', subjectKind: 'mail', subjectId: mailId, topics: ['mail'] })
        return
      }
      const error = await send({ id: mailId, to: address, subject, text: body }).then(
        () => null,
        (cause: unknown) => (cause instanceof Error ? cause.message : String(cause)).slice(0, 300),
      )
      await insertAttempt(tx, { mailId, outcome: error === null ? 'sent' : 'failed', error })
      tx.record({
        action: error === null ? 'mail:send' : 'mail:fail',
        subjectKind: 'mail',
        subjectId: mailId,
        topics: ['mail'],
      })
    })
  }

  async function sendWaiting(labId: string): Promise<void> {
    if (transport === undefined) return
    const due = await laboratory.inLaboratory(systemActor(labId), async (tx) =>
      (await findWaiting(tx))
        .filter(({ mailAttempts: [last, ...earlier] }) => {
          const wait = waitMinutes(earlier.length + 1) * 60_000
          return last === undefined || last.at.getTime() + wait <= tx.at.getTime()
        })
        .map(({ id }) => id),
    )
    for (const id of due) await attempt(transport, labId, id)
  }

  return {
    wishes: (actor: Actor): Promise<MailWishes> =>
      laboratory.inLaboratory(actor, (tx) => findWishes(tx, actor.membershipId)),

    setWishes: (actor: Actor, wishes: MailWishes): Promise<MailWishes> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const id = await insertWishes(tx, wishes)
        tx.record({
          action: 'mail-wish:set-own',
          subjectKind: 'mail-wish',
          subjectId: id,
          clientId: actor.clientId,
          topics: [],
          content: wishes,
        })
        return wishes
      }),

    state: (actor: Actor): Promise<MailState> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const waiting = await findWaiting(tx)
        const failed = waiting
          .flatMap(({ mailAttempts: [last] }) => (last?.error == null ? [] : [{ at: last.at, error: last.error }]))
          .toSorted((one, other) => other.at.getTime() - one.at.getTime())[0]
        return {
          waiting: waiting.length,
          failure: failed === undefined ? null : { at: failed.at.toISOString(), error: failed.error },
        }
      }),

    /** In the transaction of the notices: whoever asked for it gets the same by mail. */
    writeNotices: async (
      tx: LaboratoryTransaction,
      notices: readonly { toId: string; kind: 'given' | 'taken'; assignmentIds: readonly string[] }[],
      { to, reason }: { /** Who has the tests now. */ to: string | null; reason: string | null },
    ): Promise<void> => {
      // Nobody has them, whoever did this has them, or a third one.
      const taken = to === null ? 'taken-back' : to === tx.actor.membershipId ? 'taken-over' : 'taken'
      for (const { toId, kind, assignmentIds } of notices) {
        if (!(await findWishes(tx, toId)).notices) continue
        const count = await countTests(tx, assignmentIds)
        const said = { count, by: tx.actor.name, reason }
        const words = noticeMail(kind === 'given' ? kind : taken, said, await benchOf(tx))
        await write(tx, { toId, ...words, uselessAt: null })
      }
    },

    /** In the transaction that issues a report or answers a question: each person of that client who asked for it. */
    writeToClient: async (
      tx: LaboratoryTransaction,
      { kind, clientId, projectId }: { kind: 'reports' | 'answers'; clientId: string; projectId: string },
    ): Promise<void> => {
      for (const { id } of await findPeopleOf(tx, clientId)) {
        if (!(await findWishes(tx, id))[kind]) continue
        const link = publicUrl === undefined ? null : `${publicUrl}/l/${await shortNameOf(tx)}/projects/${projectId}`
        await write(tx, { toId: id, ...clientMail(kind, await projectNameOf(tx, projectId), link), uselessAt: null })
      }
    },

    /** One round over every laboratory: what is to be told is written, what waits is sent. */
    async round(): Promise<void> {
      for (const labId of await laboratory.laboratoryIds()) {
        await lookAtWindows(labId)
        await sendWaiting(labId)
      }
    },
  }
}
