import { createHash, randomBytes, randomUUID } from 'node:crypto'
import type { Client } from 'pg'
import { insertRow } from './as-login.ts'

type Row = Record<string, unknown>
type Column = { table: string; column: string; type: string; required: boolean; words: string | null }
type ForeignKey = { table: string; column: string; target: string }

/** A laboratory with one row in every table that has lab_id; `rows` holds each as it was inserted. */
export type FilledLaboratory = { lab: string; rows: Map<string, Row> }

/**
 * Fills a fresh laboratory with one row in every tenant table, as the catalogue describes them: a table added later is
 * filled too. Columns that several others constrain are given in `special`. Needs the owner's connection.
 */
export async function fillLaboratory(owner: Client): Promise<FilledLaboratory> {
  const { columns, foreignKeys } = await readCatalogue(owner)
  const filled: FilledLaboratory = { lab: randomUUID(), rows: new Map() }
  await insert(owner, 'laboratory', {
    ...valuesOf('laboratory', columns, [], filled),
    lab_id: undefined,
    ...special.laboratory!(filled),
  })
  const tables = [...new Set(columns.map(({ table }) => table))].filter((table) => table !== 'laboratory')
  for (const table of inOrder(tables, columns, foreignKeys)) {
    const own = foreignKeys.filter((key) => key.table === table)
    if (table === 'item_parent')
      filled.rows.set(
        'parent',
        await insert(owner, 'item', { ...filled.rows.get('item'), id: randomUUID(), code: 'PAR1' }),
      )
    if (table === 'test_replacement')
      filled.rows.set(
        'spare',
        await insert(owner, 'test_event', { ...filled.rows.get('test_event'), id: randomUUID() }),
      )
    const row = { ...valuesOf(table, columns, own, filled), ...special[table]?.(filled) }
    filled.rows.set(table, await insert(owner, table, row))
  }
  return filled
}

const zeros = Buffer.alloc(32)
const sha256 = (content: string | Buffer) => createHash('sha256').update(content).digest()
const of = (filled: FilledLaboratory, table: string, column = 'id') => filled.rows.get(table)![column]

const special: Record<string, (filled: FilledLaboratory) => Row> = {
  laboratory: ({ lab }) => ({ id: lab, short_name: `lab-${lab.slice(0, 8)}`, zone: 'Europe/London' }),
  membership: () => ({ account_id: randomUUID(), roles: ['manager'] }),
  invitation: () => ({ roles: ['technician'] }),
  item_parent: (filled) => ({ parent_id: of(filled, 'parent') }),
  equipment_use: (filled) => ({ step_event_id: of(filled, 'step_event') }),
  instrument_line: () => ({ baud_rate: 9600, data_bits: 8, stop_bits: 1 }),
  reading: (filled) => ({
    test_id: of(filled, 'test_event'),
    kind: 'number',
    value: '812.40',
    typed: '812.40',
    unit: 'g',
  }),
  slot_now: () => ({ value: '812.40' }),
  item_now: (filled) => ({ custodian_id: of(filled, 'membership') }),
  receipt_container: () => ({ amount_text: '24.8 kg', amount: '24.8', unit: 'kg' }),
  result: (filled) => ({
    level: 'test',
    test_id: of(filled, 'test_event'),
    made_by: 'entered',
    value: '62.0',
    value_text: '62.0',
    unit: '%',
    source: 'Own test',
    observed_on: '2026-03-02',
  }),
  result_input: (filled) => ({ reading_id: of(filled, 'reading') }),
  test_now: () => ({ state: 'in-work' }),
  deviation: (filled) => ({ test_id: of(filled, 'test_event') }),
  deviation_event: (filled) => ({ by_id: of(filled, 'membership') }),
  condition_value: (filled) => ({ by_id: of(filled, 'membership'), value: '25.1' }),
  calculation: () => ({ body: '{}', dig: sha256('{}') }),
  ledger_entry: (filled) => ({
    actor_id: of(filled, 'membership'),
    client_id: of(filled, 'client'),
    project_id: of(filled, 'project'),
    content: '{"at":"x"}',
    dig: sha256('{"at":"x"}'),
  }),
  ledger_seal: () => ({ seq: 1, previous: zeros, hash: sha256(Buffer.concat([zeros, sha256('{"at":"x"}')])) }),
  test_event: (filled) => ({
    mix_id: of(filled, 'mix'),
    design_revision_id: of(filled, 'design_revision'),
    project_id: of(filled, 'project'),
  }),
  signed_content: () => ({ body: '{"schema":1}', dig: sha256('{"schema":1}') }),
  signature: () => ({ dig: sha256('{"schema":1}'), meaning: 'approved' }),
  attachment: () => ({ media_type: 'application/pdf', bytes: 4, sha256: sha256('%PDF') }),
  attachment_body: () => ({ body: Buffer.from('%PDF') }),
  test_replacement: (filled) => ({ spare_test_id: of(filled, 'spare') }),
  report: () => ({ pdf_sha256: sha256('%PDF') }),
  report_preview: () => ({ pdf: Buffer.from('%PDF'), pdf_sha256: sha256('%PDF') }),
}

async function readCatalogue(owner: Client): Promise<{ columns: Column[]; foreignKeys: ForeignKey[] }> {
  const columns = await owner.query<Column>(`
    select c.relname as table, a.attname as column, format_type(a.atttypid, null) as type,
      a.attnotnull and not a.atthasdef as required,
      (select substring(pg_get_constraintdef(k.oid) from $$ARRAY\\['([^']+)'$$) from pg_constraint k
        where k.conrelid = c.oid and k.contype = 'c' and k.conname = c.relname || '_' || a.attname || '_word') as words
    from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
    where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace
      and (c.relname = 'laboratory' or exists (select from pg_attribute l where l.attrelid = c.oid and l.attname = 'lab_id'))
    order by c.relname, a.attnum`)
  const foreignKeys = await owner.query<ForeignKey>(`
    select k.conrelid::regclass::text as table, a.attname as column, k.confrelid::regclass::text as target
    from pg_constraint k join pg_attribute a on a.attrelid = k.conrelid and a.attnum = any (k.conkey) and a.attname <> 'lab_id'
    where k.contype = 'f' and k.connamespace = 'public'::regnamespace`)
  return { columns: columns.rows, foreignKeys: foreignKeys.rows }
}

/** Tables after those that they point at; what `special` points at by choice counts too. */
function inOrder(tables: string[], columns: Column[], foreignKeys: ForeignKey[]): string[] {
  const chosen: Record<string, string[]> = {
    equipment_use: ['step_event'],
    reading: ['test_event'],
    result: ['test_event'],
    result_input: ['reading'],
    deviation: ['test_event'],
    deviation_event: ['membership'],
    item_now: ['membership'],
    condition_value: ['membership'],
    ledger_entry: ['membership', 'client', 'project'],
    test_event: ['mix', 'design_revision', 'project'],
    ledger_unsealed: ['ledger_seal'],
  }
  const required = new Set(columns.filter((column) => column.required).map(({ table, column }) => `${table}.${column}`))
  const ordered: string[] = []
  const visit = (table: string) => {
    if (ordered.includes(table)) return
    const targets = foreignKeys.filter(
      (key) =>
        key.table === table &&
        key.target !== table &&
        key.target !== 'laboratory' &&
        required.has(`${table}.${key.column}`),
    )
    for (const target of [...targets.map(({ target }) => target), ...(chosen[table] ?? [])]) visit(target)
    ordered.push(table)
  }
  tables.forEach(visit)
  return ordered
}

function valuesOf(table: string, columns: Column[], foreignKeys: ForeignKey[], filled: FilledLaboratory): Row {
  const own = columns.filter((column) => column.table === table && column.required)
  return Object.fromEntries(own.map((column) => [column.column, valueOf(column, foreignKeys, filled)]))
}

function valueOf({ column, type, words }: Column, foreignKeys: ForeignKey[], filled: FilledLaboratory): unknown {
  if (column === 'lab_id') return filled.lab
  const key = foreignKeys.find((candidate) => candidate.column === column)
  if (key) return of(filled, key.target, filled.rows.get(key.target)?.id === undefined ? `${key.target}_id` : 'id')
  if (words !== null) return words
  if (type === 'uuid') return randomUUID()
  if (type === 'bytea') return randomBytes(32)
  if (type === 'boolean') return true
  if (type === 'text[]') return []
  if (type === 'date') return '2026-03-02'
  if (type.startsWith('timestamp')) return '2026-03-02T08:00:00Z'
  return type === 'text' ? 'x' : 1
}

async function insert(owner: Client, table: string, row: Row): Promise<Row> {
  const given = Object.fromEntries(Object.entries(row).filter(([, value]) => value !== undefined))
  // An entry waits for its seal by trigger: that row is there already.
  if (table !== 'ledger_unsealed') await insertRow(owner, table, given)
  return given
}
