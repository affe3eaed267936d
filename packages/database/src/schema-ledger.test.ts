import { createHash, randomUUID } from 'node:crypto'
import type { Client } from 'pg'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { asLogin, connect, insertRow, refusalOf } from '../../../tests/support/as-login.ts'
import { cloneDatabase } from '../../../tests/support/database.ts'
import { fillLaboratory, type FilledLaboratory } from '../../../tests/support/fill-laboratory.ts'

let database: Awaited<ReturnType<typeof cloneDatabase>>
let owner: Client
let app: Client
let sealer: Client
let here: FilledLaboratory
let there: FilledLaboratory

beforeAll(async () => {
  database = await cloneDatabase()
  ;[owner, app, sealer] = await Promise.all([
    connect(database.ownerUrl),
    connect(database.appUrl),
    connect(database.sealerUrl),
  ])
  here = await fillLaboratory(owner)
  there = await fillLaboratory(owner)
})

afterAll(async () => {
  await Promise.all([owner.end(), app.end(), sealer.end()])
  await database.drop()
})

const sha256 = (...parts: (string | Buffer)[]) =>
  parts.reduce((hash, part) => hash.update(part), createHash('sha256')).digest()
const seal = (client: Client, most = 5000) =>
  client.query<{ lab_id: string; first_seq: string; last_seq: string }>(`select * from seal_ledger('2026-03-02', $1)`, [
    most,
  ])

/** Appends entries as the application, each in its own transaction. */
async function append(client: Client, laboratory: FilledLaboratory, count: number) {
  for (let index = 0; index < count; index += 1) {
    await client.query('begin')
    await client.query(`select set_config('app.lab', $1, true)`, [laboratory.lab])
    const content = `{"n":"${randomUUID()}"}`
    await client.query(
      `insert into ledger_entry (lab_id, id, actor_kind, actor_id, action, subject_kind, subject_id, topics, content, dig, at)
       values ($1, gen_random_uuid(), 'person', $2, 'reading.post', 'reading', $3, '{}', $4, $5, '2026-03-02')`,
      [
        laboratory.lab,
        laboratory.rows.get('membership')!.id,
        laboratory.rows.get('reading')!.id,
        content,
        sha256(content),
      ],
    )
    await client.query('commit')
  }
}

test('an entry carries the digest of its content', async () => {
  const entry = { ...here.rows.get('ledger_entry')!, id: randomUUID(), content: '{"changed":"1"}' }
  await asLogin(app, { lab: here.lab }, async () =>
    expect(await refusalOf(insertRow(app, 'ledger_entry', entry))).toBe('23514'),
  )
})

test('sealing chains each laboratory for itself, follows the head, and leaves nothing waiting', async () => {
  await append(app, here, 3)
  await append(app, there, 2)
  const { rows } = await seal(sealer)
  const byLab = new Map(rows.map((row) => [row.lab_id, `${row.first_seq}-${row.last_seq}`]))
  expect(byLab).toEqual(
    new Map([
      [here.lab, '2-4'],
      [there.lab, '2-3'],
    ]),
  )
  const chain = await owner.query<{ seq: string; previous: Buffer; hash: Buffer; dig: Buffer }>(
    'select s.seq, s.previous, s.hash, e.dig from ledger_seal s join ledger_entry e on e.lab_id = s.lab_id and e.id = s.entry_id where s.lab_id = $1 order by s.seq',
    [here.lab],
  )
  let head: Buffer = Buffer.alloc(32)
  for (const link of chain.rows) {
    expect(link.previous.equals(head)).toBe(true)
    head = sha256(head, link.dig)
    expect(link.hash.equals(head)).toBe(true)
  }
  expect((await owner.query('select from ledger_unsealed')).rowCount).toBe(0)
  expect((await seal(sealer)).rows).toEqual([])
})

test('two sealers and four writers at once: no fork, no entry left or sealed twice', async () => {
  const second = await connect(database.sealerUrl)
  const writers = await Promise.all([1, 2, 3, 4].map(() => connect(database.appUrl)))
  try {
    const writing = Promise.all(writers.map((writer) => append(writer, here, 40)))
    const sealing = [sealer, second].map(async (client) => {
      for (let round = 0; round < 20; round += 1) await seal(client, 7)
    })
    await Promise.all([writing, ...sealing])
    while ((await seal(sealer)).rows.length > 0);
    const { rows } = await owner.query(
      `select count(*)::int as seals, max(seq)::int as head, count(distinct previous)::int as links,
        (select count(*)::int from ledger_entry where lab_id = $1) as entries from ledger_seal where lab_id = $1`,
      [here.lab],
    )
    expect(rows[0].seals).toBe(rows[0].entries)
    expect(rows[0].head).toBe(rows[0].entries)
    expect(rows[0].links).toBe(rows[0].entries)
    expect(rows[0].entries).toBeGreaterThanOrEqual(161)
  } finally {
    await Promise.all([second, ...writers].map((client) => client.end()))
  }
})

test('a seal that does not follow the head, or carries another hash, is refused', async () => {
  await append(app, here, 1)
  const { rows } = await sealer.query(
    `select u.entry_id, e.dig, s.seq, s.hash from ledger_unsealed u join ledger_entry e on e.lab_id = u.lab_id and e.id = u.entry_id
     cross join lateral (select seq, hash from ledger_seal where lab_id = u.lab_id order by seq desc limit 1) s where u.lab_id = $1`,
    [here.lab],
  )
  const { entry_id: entry, dig, seq, hash: head } = rows[0]
  const next = Number(seq) + 1
  const put = (number: number, previous: Buffer, hash: Buffer) =>
    asLogin(sealer, {}, () =>
      refusalOf(
        sealer.query(
          `insert into ledger_seal (lab_id, seq, entry_id, previous, hash, sealed_at) values ($1, $2, $3, $4, $5, '2026-03-02')`,
          [here.lab, number, entry, previous, hash],
        ),
      ),
    )
  expect(await put(next, head, sha256(head, dig))).toBe('accepted')
  expect(await put(next + 1, head, sha256(head, dig))).toBe('CB005')
  expect(await put(next, dig, sha256(dig, dig))).toBe('CB005')
  expect(await put(next, head, sha256(head, head))).toBe('CB005')
})
