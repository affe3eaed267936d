import type { Client } from 'pg'

/** What a worked design is made of, in the order in which its rows can be inserted. */
const tables = [
  'design',
  'design_revision',
  'design_method',
  'mix',
  'mix_component',
  'item',
  'item_parent',
  'test_event',
  'test_now',
  'step_event',
  'reading',
  'slot_now',
  'window_outcome',
  'result',
  'result_input',
  'calculation',
  'equipment_use',
]
/** Where the rows of one design are found; each statement is asked with the laboratory and the design. */
const idsOfDesign = `
  with r as (select id from design_revision where lab_id = $1 and design_id = $2),
       t as (select id, item_id from test_event where lab_id = $1 and design_revision_id in (select id from r))
  select $2::uuid as id
  union select id from r
  union select id from design_method where lab_id = $1 and design_revision_id in (select id from r)
  union select id from mix where lab_id = $1 and design_revision_id in (select id from r)
  union select c.id from mix_component c join mix m on m.lab_id = c.lab_id and m.id = c.mix_id where c.lab_id = $1 and m.design_revision_id in (select id from r)
  union select item_id from t
  union select id from t
  union select id from step_event where lab_id = $1 and test_id in (select id from t)
  union select id from reading where lab_id = $1 and test_id in (select id from t)
  union select id from window_outcome where lab_id = $1 and test_id in (select id from t)
  union select id from result where lab_id = $1 and (test_id in (select id from t) or design_revision_id in (select id from r))
  union select u.id from equipment_use u join step_event s on s.lab_id = u.lab_id and s.id = u.step_event_id where u.lab_id = $1 and s.test_id in (select id from t)`
/** By which column a row belongs to the design; all others are keyed by an id of their own. */
const belongsBy: Readonly<Record<string, string>> = {
  item_parent: 'child_id',
  test_now: 'test_id',
  slot_now: 'test_id',
  result_input: 'result_id',
  calculation: 'result_id',
}

/**
 * Copies a worked design, row by row and with ids of its own, until the laboratory holds so many readings: years of work
 * within seconds. Nothing goes through the services, and the ledger is left as it is.
 * @param owner the owner's connection
 * @returns how many readings there are
 */
export async function fillWithReadings(
  owner: Client,
  { labId, designId, readings }: { labId: string; designId: string; readings: number },
): Promise<number> {
  await owner.query('create temp table if not exists copied (id uuid primary key)')
  await owner.query('truncate copied')
  await owner.query(`insert into copied ${idsOfDesign}`, [labId, designId])
  const { rows: own } = await owner.query<{ count: number }>(
    'select count(*)::int as count from reading where lab_id = $1 and id in (select id from copied)',
    [labId],
  )
  const before = await countReadings(owner, labId)
  const copies = Math.ceil((readings - before) / own[0]!.count)
  if (copies > 0) {
    const columns = await columnsOf(owner)
    await owner.query('begin')
    // Rows of a design name each other in a ring: they are complete once all are there.
    await owner.query('set local session_replication_role = replica')
    for (const table of tables) await copyTable(owner, table, columns.get(table)!, { labId, copies })
    await owner.query('commit')
  }
  await owner.query('analyze')
  return countReadings(owner, labId)
}

async function countReadings(owner: Client, labId: string): Promise<number> {
  const { rows } = await owner.query<{ count: number }>(
    'select count(*)::int as count from reading where lab_id = $1',
    [labId],
  )
  return rows[0]!.count
}

type Column = { name: string; type: string }

async function columnsOf(owner: Client): Promise<Map<string, Column[]>> {
  const { rows } = await owner.query<Column & { table: string }>(
    `select table_name as "table", column_name as name, data_type as type from information_schema.columns
      where table_schema = 'public' and table_name = any($1) and is_generated = 'NEVER' order by ordinal_position`,
    [tables],
  )
  const byTable = new Map<string, Column[]>()
  for (const row of rows) byTable.set(row.table, [...(byTable.get(row.table) ?? []), row])
  return byTable
}

/** Ids of the design become ids of the copy; everything it shares with others (people, instruments, editions) stays. */
async function copyTable(
  owner: Client,
  table: string,
  columns: readonly Column[],
  { labId, copies }: { labId: string; copies: number },
): Promise<void> {
  const copyOf = ({ name, type }: Column) => {
    if (table === 'item' && name === 'code') return `t.code || '~' || k`
    if (name === 'lab_id' || type !== 'uuid') return `t."${name}"`
    return `coalesce((select md5(c.id::text || ':' || k)::uuid from copied c where c.id = t."${name}"), t."${name}")`
  }
  await owner.query(
    `insert into "${table}" (${columns.map(({ name }) => `"${name}"`).join(', ')})
     select ${columns.map(copyOf).join(', ')}
       from "${table}" t, generate_series(1, ${copies}) k
      where t.lab_id = $1 and t."${belongsBy[table] ?? 'id'}" in (select id from copied)`,
    [labId],
  )
}
