import type { LedgerBreak, LedgerHead, LedgerVerdict } from '@curebook/contract/ledger'
import { createHash } from 'node:crypto'
import type { ClientBase } from 'pg'
import { sha256 } from '#platform/canonical-json'
import { createBodyComparison, type HeldBodies } from './ledger-bodies.ts'
import { createRowComparison, type HeldRow } from './ledger-rows.ts'

/** A head that was printed: paper says more than the database it is compared with. */
export type PrintedHead = { seq: number; hash: string }

type ChainRow = {
  seq: string | null
  previous: Buffer | null
  hash: Buffer | null
  sealed_at: Date | null
  entry_id: string
  id: string | null
  at: Date
  actor_kind: string
  actor_id: string | null
  session_id: string | null
  action: string
  subject_kind: string
  subject_id: string
  project_id: string | null
  client_id: string | null
  content: string
  dig: Buffer
}

type EntryContent = {
  id: string
  lab: string
  at: string
  actor: { kind: string; id: string | null; session: string | null }
  action: string
  subject: { kind: string; id: string }
  project: string | null
  client: string | null
  content: Record<string, unknown>
  rows: { table: string; row: HeldRow['row'] }[]
}

const batch = 500
const nothing = Buffer.alloc(32)

/**
 * Checks a laboratory's whole ledger and stops at the first break: each entry's text against its digest and its columns, the
 * chain of seals, each row that entries hold against its table, what was signed, issued or attached against the digests in
 * entries, printed heads against the chain. Reads in batches, in one transaction that sees one moment; `client` is inside it,
 * with the laboratory set.
 */
export async function verifyLedger(
  client: ClientBase,
  labId: string,
  printed: PrintedHead[],
  checkedAt: Date,
): Promise<LedgerVerdict> {
  const rows = createRowComparison(client, labId)
  const compareBodies = createBodyComparison(client, labId)
  const heads = new Map<number, string>()
  const wanted = new Set(printed.map(({ seq }) => seq))
  let head: LedgerHead = { seq: 0, hash: nothing.toString('hex'), sealedAt: null }
  let entries = 0
  let unsealed = 0

  const verdict = (firstBreak: LedgerBreak | null): LedgerVerdict => ({
    whole: firstBreak === null,
    firstBreak,
    entries,
    unsealed,
    rowsCompared: rows.count(),
    headsCompared: printed.length,
    head,
    checkedAt: checkedAt.toISOString(),
  })

  async function breakOfHeld(entries: readonly ChainRow[]): Promise<LedgerBreak | null> {
    const held = entries.map(heldIn)
    const altered = await rows.compare(
      held.flatMap(({ rows, seq, entryId }) => rows.map((row) => ({ ...row, seq, entryId }))),
    )
    return altered ?? compareBodies(held)
  }

  for await (const chain of sealedBatches(client, labId)) {
    for (const link of chain) {
      const broken = breakOfLink(link, labId, head)
      if (broken) return verdict(broken)
      entries += 1
      head = { seq: Number(link.seq), hash: link.hash!.toString('hex'), sealedAt: link.sealed_at!.toISOString() }
      if (wanted.has(head.seq)) heads.set(head.seq, head.hash)
    }
    const broken = await breakOfHeld(chain)
    if (broken) return verdict(broken)
  }

  for await (const waiting of unsealedBatches(client, labId)) {
    for (const entry of waiting) {
      const broken = breakOfEntry(entry, labId)
      if (broken) return verdict(broken)
    }
    entries += waiting.length
    unsealed += waiting.length
    const broken = await breakOfHeld(waiting)
    if (broken) return verdict(broken)
  }

  const firstPrint = [...printed]
    .sort((a, b) => a.seq - b.seq)
    .map((print) => breakOfPrint(print, heads, head))
    .find((found) => found !== null)
  return verdict(firstPrint ?? (await rows.findStranger()))
}

function breakOfLink(link: ChainRow, labId: string, head: LedgerHead): LedgerBreak | null {
  const seq = Number(link.seq)
  const at = { seq, entryId: link.entry_id, table: null, rowId: null }
  if (seq !== head.seq + 1)
    return {
      ...at,
      kind: 'chain-broken',
      message: `After link ${head.seq} comes link ${seq}: what stood between was deleted.`,
    }
  if (link.id === null) return { ...at, kind: 'entry-missing', message: `The entry of link ${seq} was deleted.` }
  const broken = breakOfEntry(link, labId)
  if (broken) return broken
  if (link.previous!.toString('hex') !== head.hash)
    return {
      ...at,
      kind: 'chain-broken',
      message: `Link ${seq} does not follow link ${head.seq}: its previous hash is another one.`,
    }
  const hash = createHash('sha256').update(link.previous!).update(link.dig).digest()
  if (!hash.equals(link.hash!))
    return { ...at, kind: 'chain-broken', message: `The hash of link ${seq} is not that of its entry.` }
  return null
}

function breakOfEntry(entry: ChainRow, labId: string): LedgerBreak | null {
  const seq = entry.seq === null ? null : Number(entry.seq)
  const at = { seq, entryId: entry.entry_id, table: null, rowId: null }
  const name = seq === null ? `The entry ${entry.entry_id}, not sealed yet,` : `Entry ${seq}`
  if (!sha256(entry.content).equals(entry.dig))
    return { ...at, kind: 'entry-altered', message: `${name} was changed: its text no longer has its digest.` }
  const content = JSON.parse(entry.content) as EntryContent
  const column = Object.entries({
    id: [content.id, entry.id],
    laboratory: [content.lab, labId],
    time: [content.at, entry.at.toISOString()],
    'kind of actor': [content.actor.kind, entry.actor_kind],
    actor: [content.actor.id, entry.actor_id],
    session: [content.actor.session, entry.session_id],
    action: [content.action, entry.action],
    'kind of subject': [content.subject.kind, entry.subject_kind],
    subject: [content.subject.id, entry.subject_id],
    project: [content.project, entry.project_id],
    client: [content.client, entry.client_id],
  }).find(([, [said, stands]]) => said !== stands)
  if (column)
    return {
      ...at,
      kind: 'entry-columns-differ',
      message: `${name} was changed: its ${column[0]} is not the one under its digest.`,
    }
  return null
}

function breakOfPrint(print: PrintedHead, heads: Map<number, string>, head: LedgerHead): LedgerBreak | null {
  const at = { seq: print.seq, entryId: null, table: null, rowId: null }
  if (print.seq > head.seq)
    return {
      ...at,
      kind: 'tail-missing',
      message: `A head was printed at link ${print.seq}, and the chain ends at link ${head.seq}: its tail was cut off.`,
    }
  const hash = print.seq === 0 ? nothing.toString('hex') : heads.get(print.seq)
  if (hash !== print.hash)
    return {
      ...at,
      kind: 'head-differs',
      message: `The printed head of link ${print.seq} has another hash than the chain: the chain was made anew up to there.`,
    }
  return null
}

function heldIn({ seq, entry_id, content }: ChainRow): HeldBodies & { rows: EntryContent['rows'] } {
  return { ...(JSON.parse(content) as EntryContent), seq: seq === null ? null : Number(seq), entryId: entry_id }
}

const entryColumns =
  'e.id, e.at, e.actor_kind, e.actor_id, e.session_id, e.action, e.subject_kind, e.subject_id, e.project_id, e.client_id, e.content, e.dig'

async function* sealedBatches(client: ClientBase, labId: string): AsyncGenerator<ChainRow[]> {
  let after = '0'
  while (true) {
    const { rows } = await client.query<ChainRow>(
      `select s.seq, s.previous, s.hash, s.sealed_at, s.entry_id, ${entryColumns}
       from ledger_seal s left join ledger_entry e on e.lab_id = s.lab_id and e.id = s.entry_id
       where s.lab_id = $1 and s.seq > $2 order by s.seq limit ${batch}`,
      [labId, after],
    )
    if (rows.length === 0) return
    yield rows
    after = rows.at(-1)!.seq!
  }
}

/** Entries without a seal, whether or not they wait for one: their list is no guard. */
async function* unsealedBatches(client: ClientBase, labId: string): AsyncGenerator<ChainRow[]> {
  let after = '00000000-0000-0000-0000-000000000000'
  while (true) {
    const { rows } = await client.query<ChainRow>(
      `select null as seq, null as previous, null as hash, null as sealed_at, e.id as entry_id, ${entryColumns}
       from ledger_entry e
       where e.lab_id = $1 and e.id > $2 and not exists (select from ledger_seal s where s.lab_id = e.lab_id and s.entry_id = e.id)
       order by e.id limit ${batch}`,
      [labId, after],
    )
    if (rows.length === 0) return
    yield rows
    after = rows.at(-1)!.entry_id
  }
}
