import type {
  HeadPrint,
  LedgerEntryView,
  LedgerHead,
  LedgerQuery,
  LedgerVerdict,
  PrintHead,
  VerifyLedger,
} from '@curebook/contract/ledger'
import type { Database } from '@curebook/database/open-database'
import type { Actor, AnyActor } from '#platform/actor'
import type { Clock } from '#platform/clock'
import { twice } from '#platform/database-errors'
import type { Laboratory, LaboratorySql } from '#platform/laboratory'
import { invalidField } from '#platform/problem'
import { inExport } from '#platform/export-transaction'
import { toEntryView, toHeadPrint } from './ledger.mapper.ts'
import { insertHeadPrint, listEntries, listHeadPrints, readHead } from './ledger.repository.ts'
import { verifyLedger } from './ledger-verifier.ts'

export type LedgerService = ReturnType<typeof createLedgerService>

type Dependencies = { database: Database; laboratory: Laboratory; clock: Clock; sealNow: () => Promise<void> }

/** The ledger to read, to verify, and its head to print. */
export function createLedgerService({ database, laboratory, clock, sealNow }: Dependencies) {
  return {
    /** Entries, the latest first. The first page seals what waits, so that pages follow the chain. */
    async list(actor: Actor, query: LedgerQuery): Promise<{ items: LedgerEntryView[]; next: string | null }> {
      const before = cursorOf(query.cursor)
      if (before === undefined) await sealNow()
      return laboratory.inLaboratorySql(actor, async (sql) => {
        const rows = await listEntries(sql, query, before)
        const page = rows.slice(0, query.limit)
        return { items: page.map(toEntryView), next: rows.length > query.limit ? (page.at(-1)?.seq ?? null) : null }
      })
    },

    async head(actor: Actor): Promise<LedgerHead> {
      await sealNow()
      return laboratory.inLaboratorySql(actor, (sql) => readHead(sql))
    },

    heads: (actor: Actor): Promise<HeadPrint[]> =>
      laboratory.inLaboratorySql(actor, async (sql) => (await listHeadPrints(sql)).map(toHeadPrint)),

    /** Keeps that the head was printed and where the print is; the answer is what to print. */
    async printHead(actor: Actor, input: PrintHead): Promise<HeadPrint> {
      await sealNow()
      return twice(() => laboratory.inLaboratorySql(actor, (sql) => printHeadIn(sql, input)))
    },

    /** Checks the whole ledger, against the heads that were printed here and one that is typed from paper. */
    async verify(actor: AnyActor, { printed }: VerifyLedger): Promise<LedgerVerdict> {
      await sealNow()
      return inExport(database, actor, async (client) => {
        const kept = await client.query<{ seq: string; hash: Buffer }>(
          'select seq, hash from ledger_head_print where lab_id = $1',
          [actor.labId],
        )
        const heads = kept.rows.map(({ seq, hash }) => ({ seq: Number(seq), hash: hash.toString('hex') }))
        return verifyLedger(client, actor.labId, printed ? [printed, ...heads] : heads, clock.now())
      })
    },
  }
}

async function printHeadIn(sql: LaboratorySql, { id, place }: PrintHead): Promise<HeadPrint> {
  const earlier = (await listHeadPrints(sql)).find((print) => print.id === id)
  if (earlier) return toHeadPrint(earlier)
  const head = await readHead(sql)
  await insertHeadPrint(sql, id, head, place)
  sql.record({
    action: 'ledger:print-head',
    subjectKind: 'head-print',
    subjectId: id,
    topics: ['ledger'],
    content: { seq: String(head.seq), hash: head.hash, place },
  })
  const { membershipId, name, initials } = sql.actor
  return {
    ...{ id, seq: head.seq, hash: head.hash, printedAt: sql.at.toISOString(), place },
    by: { membershipId, name, initials },
  }
}

function cursorOf(cursor: string | undefined): number | undefined {
  if (cursor === undefined) return undefined
  const seq = Number(cursor)
  if (!Number.isSafeInteger(seq) || seq < 1) throw invalidField('cursor', 'Not a cursor of this list.')
  return seq
}
