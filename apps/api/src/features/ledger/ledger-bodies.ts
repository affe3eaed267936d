import type { LedgerBreak } from '@curebook/contract/ledger'
import type { ClientBase } from 'pg'
import type { LedgerRow } from '#platform/ledger-content'
import { digestOfEdition, type EditionFacts } from '#features/methods/methods.service'

type StoredEdition = Omit<EditionFacts, 'parameters'> & { readonly id: string; readonly parameters: string }

/** What an entry says of texts and files that are too large to stand in it: their SHA-256. */
export type HeldBodies = {
  readonly seq: number | null
  readonly entryId: string
  readonly action: string
  readonly subject: { readonly id: string }
  readonly client: string | null
  readonly project: string | null
  readonly content: Readonly<Record<string, unknown>>
  readonly rows: readonly LedgerRow[]
}

type Kind = 'signed_content' | 'report' | 'attachment' | 'method_edition'
type Body = { readonly kind: Kind; readonly id: string; readonly sha256: string; readonly facts: readonly string[] }
type Held = Body & Pick<HeldBodies, 'seq' | 'entryId'>
type Standing = Omit<Body, 'sha256'> & { readonly sha256: string | null }

const words = {
  signed_content: 'signed content',
  report: 'report',
  attachment: 'file',
  method_edition: 'edition',
} as const satisfies Record<Kind, string>
/** Files are as large as 8 MB: so many are read for one answer of the database. */
const atATime = 20

/**
 * Compares what is too large to stand in an entry with the digest that does: texts that were signed, files of reports and
 * attachments, and the editions that results were computed by. Of a report its number and whose it is are held too.
 */
export function createBodyComparison(client: ClientBase, labId: string) {
  /** Thousands of results name the same few editions. */
  const compared = new Set<string>()

  /** The first of these that is gone or changed. */
  return async function compare(entries: readonly HeldBodies[]): Promise<LedgerBreak | null> {
    const held = entries.flatMap(bodiesOf).filter((body) => {
      const name = `${body.kind} ${body.id} ${body.sha256} ${body.facts.join()}`
      return !compared.has(name) && compared.add(name)
    })
    for (let from = 0; from < held.length; from += atATime) {
      const piece = held.slice(from, from + atATime)
      const standing = await readStanding(client, labId, piece)
      const broken = piece
        .map((body) => breakOf(body, standing.get(`${body.kind} ${body.id}`)))
        .find((one) => one !== null)
      if (broken) return broken
    }
    return null
  }
}

function breakOf({ kind, id, sha256, facts, seq, entryId }: Held, standing: Standing | undefined): LedgerBreak | null {
  const at = { seq, entryId, table: kind, rowId: id }
  const name = `The ${words[kind]} ${id}`
  if (standing === undefined)
    return {
      ...at,
      kind: 'row-missing',
      message: `${name} stands in entry ${entryId} and is not kept any more: it was deleted.`,
    }
  const altered = (what: string): LedgerBreak => ({
    ...at,
    kind: 'row-altered',
    message: `${name} was changed after it was written: ${what}.`,
  })
  if (standing.sha256 !== sha256) return altered('it no longer has the digest that the ledger says')
  if (standing.facts.join() !== facts.join()) return altered('its number, its project or its client is another one')
  return null
}

function bodiesOf({ action, subject, content, rows, client, project, seq, entryId }: HeldBodies): Held[] {
  const at = { seq, entryId, facts: [] }
  const named = rows.flatMap(({ table, row }): Held[] => {
    if (table === 'signature')
      return [{ ...at, kind: 'signed_content', id: String(row.signed_content_id), sha256: String(row.dig) }]
    if (table === 'result' && typeof row.edition_id === 'string')
      return [{ ...at, kind: 'method_edition', id: row.edition_id, sha256: String(row.edition_dig) }]
    return []
  })
  const { sha256, pdf, number, amendment } = content
  if (action === 'attachment:create' && typeof sha256 === 'string')
    return [...named, { ...at, kind: 'attachment', id: subject.id, sha256 }]
  if (action !== 'report:issue' || typeof pdf !== 'string') return named
  const facts = [number, amendment, project, client].map(String)
  return [...named, { ...at, kind: 'report', id: subject.id, sha256: pdf, facts }]
}

async function readStanding(
  client: ClientBase,
  labId: string,
  bodies: readonly Body[],
): Promise<Map<string, Standing>> {
  const idsOf = (kind: Kind) => bodies.filter((body) => body.kind === kind).map(({ id }) => id)
  const { rows: files } = await client.query<Standing>(
    `select 'signed_content' as kind, c.id, encode(sha256(convert_to(c.body, 'UTF8')), 'hex') as sha256, '{}'::text[] as facts
       from signed_content c where c.lab_id = $1 and c.id = any($2::uuid[])
     union all
     select 'attachment', b.attachment_id, encode(sha256(b.body), 'hex'), '{}'
       from attachment_body b where b.lab_id = $1 and b.attachment_id = any($3::uuid[])
     union all
     select 'report', r.id, encode(sha256(b.body), 'hex'), array[r.number, r.amendment::text, r.project_id::text, r.client_id::text]
       from report r join attachment_body b on b.lab_id = r.lab_id and b.attachment_id = r.pdf_id
      where r.lab_id = $1 and r.id = any($4::uuid[])`,
    [labId, idsOf('signed_content'), idsOf('attachment'), idsOf('report')],
  )
  const { rows: editions } = await client.query<StoredEdition>(
    `select id, method_key as "methodKey", edition_key as "editionKey", revision, designation, year, parameters
       from method_edition where lab_id = $1 and id = any($2::uuid[])`,
    [labId, idsOf('method_edition')],
  )
  const standing = [
    ...files,
    ...editions.map((edition): Standing => ({
      kind: 'method_edition',
      id: edition.id,
      sha256: digestOf(edition),
      facts: [],
    })),
  ]
  return new Map(standing.map((body) => [`${body.kind} ${body.id}`, body]))
}

/** Null where somebody made of its parameters what is none. */
function digestOf({ parameters, ...edition }: StoredEdition): string | null {
  try {
    return digestOfEdition({ ...edition, parameters: JSON.parse(parameters) as EditionFacts['parameters'] }).toString(
      'hex',
    )
  } catch {
    return null
  }
}
