import type { Prisma } from '@curebook/database/client'
import type { Database } from '@curebook/database/open-database'
import type { PoolClient, QueryResult, QueryResultRow } from 'pg'
import type { Actor, AnyActor } from './actor.ts'
import type { Clock } from './clock.ts'
import { entryOf, insertEntries, type LedgerDraft, type LedgerEntryRow } from './ledger.ts'
import { settingsOf, settingsSql } from './session-settings.ts'

/** What a transaction offers whichever way it speaks to the database. */
type Transaction<A extends AnyActor> = {
  actor: A
  /** The clock at the transaction's start: `at` of everything it writes. */
  at: Date
  /** Appends an entry to the ledger, with the commit. Every change records one. */
  record(entry: LedgerDraft): void
}

/** A transaction in one laboratory, as one person: row-level security shows nothing else. */
export type LaboratoryTransaction<A extends AnyActor = Actor> = Transaction<A> & { prisma: Prisma.TransactionClient }

/** The same over bare `pg`, for requests that must be fast: statements that are not awaited travel together. */
export type LaboratorySql<A extends AnyActor = Actor> = Transaction<A> & {
  query<R extends QueryResultRow>(text: string, values?: unknown[]): Promise<QueryResult<R>>
  /** A statement nobody waits for: it travels with the commit, and its failure fails the commit. */
  last(text: string, values?: unknown[]): void
}

export type TransactionOptions = {
  /** `RepeatableRead` where several reads must see one moment (evaluating what is signed). */
  isolationLevel?: 'ReadCommitted' | 'RepeatableRead'
}

export type Laboratory = ReturnType<typeof createLaboratory>

/** The one way to a laboratory's rows: opens a transaction with the settings that the policies read. */
export function createLaboratory({ database, clock }: { database: Database; clock: Clock }) {
  async function inLaboratory<T, A extends AnyActor = Actor>(
    actor: A,
    work: (tx: LaboratoryTransaction<A>) => Promise<T>,
    options: TransactionOptions = {},
  ): Promise<T> {
    return database.prisma.$transaction(
      async (prisma) => {
        const entries: LedgerEntryRow[] = []
        const at = clock.now()
        await prisma.$queryRawUnsafe(settingsSql, ...settingsOf(actor))
        const outcome = await work({
          prisma,
          actor,
          at,
          record: (draft) => void entries.push(entryOf(actor, at, draft)),
        })
        // Also the proof that no statement failed unnoticed: in a failed transaction this insert rejects, a commit does not.
        if (entries.length > 0) await prisma.ledgerEntry.createMany({ data: entries })
        return outcome
      },
      { maxWait: 10_000, timeout: 60_000, isolationLevel: options.isolationLevel },
    )
  }

  async function inLaboratorySql<T, A extends AnyActor = Actor>(
    actor: A,
    work: (sql: LaboratorySql<A>) => Promise<T>,
  ): Promise<T> {
    const client = await database.pool.connect()
    let broken: Error | undefined
    // A connection that breaks between two statements has nobody else to tell.
    const noteBreak = (error: Error) => void (broken = error)
    client.on('error', noteBreak)
    try {
      const entries: LedgerEntryRow[] = []
      const sent: Promise<unknown>[] = []
      const send = (text: string, values?: unknown[]) => {
        const answer = client.query(text, values)
        // Handled where it is awaited, or at the commit.
        answer.catch(() => undefined)
        return answer
      }
      sent.push(send('begin'), send(settingsSql, settingsOf(actor)))
      const at = clock.now()
      try {
        const outcome = await work({
          actor,
          at,
          query: (text, values) => send(text, values) as never,
          last: (text, values) => void sent.push(send(text, values)),
          record: (draft) => void entries.push(entryOf(actor, at, draft)),
        })
        if (entries.length > 0) {
          const { text, values } = insertEntries(entries)
          sent.push(send(text, values))
        }
        await commit(client, sent)
        return outcome
      } catch (error) {
        await client.query('rollback').catch(noteBreak)
        throw error
      }
    } finally {
      client.off('error', noteBreak)
      client.release(broken)
    }
  }

  /** Every laboratory there is: for work that the server does in one after the other. */
  async function laboratoryIds(): Promise<string[]> {
    const { rows } = await database.pool.query<{ id: string }>('select laboratory_ids() as id')
    return rows.map(({ id }) => id)
  }

  return { inLaboratory, inLaboratorySql, laboratoryIds, clock }
}

async function commit(client: PoolClient, sent: Promise<unknown>[]): Promise<void> {
  const committed = client.query('commit')
  const outcomes = await Promise.allSettled([...sent, committed])
  const failed = outcomes.find((outcome) => outcome.status === 'rejected')
  if (failed) throw failed.reason
  // A pipelined commit of a failed transaction resolves, as a rollback.
  if ((await committed).command !== 'COMMIT') throw new Error('The transaction was rolled back at its commit')
}
