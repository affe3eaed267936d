import { createHash, randomUUID } from 'node:crypto'
import type { Client } from 'pg'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { asLogin, connect, insertRow, refusalOf } from '../../../tests/support/as-login.ts'
import { cloneDatabase } from '../../../tests/support/database.ts'
import { fillLaboratory, type FilledLaboratory } from '../../../tests/support/fill-laboratory.ts'

let database: Awaited<ReturnType<typeof cloneDatabase>>
let owner: Client
let app: Client
let here: FilledLaboratory

beforeAll(async () => {
  database = await cloneDatabase()
  ;[owner, app] = await Promise.all([connect(database.ownerUrl), connect(database.appUrl)])
  here = await fillLaboratory(owner)
})

afterAll(async () => {
  await Promise.all([owner.end(), app.end()])
  await database.drop()
})

const sha256 = (content: string) => createHash('sha256').update(content).digest()
const idOf = (table: string) => here.rows.get(table)!.id
const inHere = <T>(work: () => Promise<T>) => asLogin(app, { lab: here.lab }, work)

const post = (table: string, changes: Record<string, unknown>) =>
  insertRow(app, table, { ...here.rows.get(table), id: randomUUID(), ...changes })

test('a signed content carries the digest of exactly its text', async () => {
  expect(await inHere(() => refusalOf(post('signed_content', { body: '{"a":"1"}', dig: sha256('{"a":"1"}') })))).toBe(
    'accepted',
  )
  expect(await inHere(() => refusalOf(post('signed_content', { body: '{"a":"2"}', dig: sha256('{"a":"1"}') })))).toBe(
    '23514',
  )
})

test('a signature carries the digest of its content, and one person signs one meaning once', async () => {
  expect(await inHere(() => refusalOf(post('signature', { meaning: 'checked' })))).toBe('accepted')
  expect(await inHere(() => refusalOf(post('signature', { meaning: 'checked', dig: sha256('other') })))).toBe('CB003')
  expect(await inHere(() => refusalOf(post('signature', {})))).toBe('23505')
})

test('a report needs an approval of its content, its own PDF, and the client of its project', async () => {
  const report = { number: 'R-2', public_token_hash: sha256('R-2') }
  expect(await inHere(() => refusalOf(post('report', report)))).toBe('accepted')
  expect(await inHere(() => refusalOf(post('report', { ...report, pdf_sha256: sha256('other') })))).toBe('CB003')
  await inHere(async () => {
    const [content, checked, client] = [randomUUID(), randomUUID(), randomUUID()]
    await post('signed_content', { id: content, body: '{"b":"1"}', dig: sha256('{"b":"1"}') })
    await post('signature', { id: checked, meaning: 'checked' })
    await post('client', { id: client, name: 'Another' })
    await app.query('savepoint s')
    for (const changes of [{ signed_content_id: content }, { signature_id: checked }, { client_id: client }]) {
      expect(await refusalOf(post('report', { ...report, ...changes }))).toBe('CB003')
      await app.query('rollback to s')
    }
  })
})

test('from a preview nothing but its own file, number and content is issued, and once', async () => {
  const other = here.rows.get('report_preview')!
  const own = { id: randomUUID(), number: 'R-7', public_token_hash: sha256('R-7') }
  const { amendment, design_revision_id } = other
  const from = { ...own, preview_id: own.id, amendment, design_revision_id }
  await inHere(async () => {
    await post('report_preview', own)
    await app.query('savepoint s')
    const issue = (changes: object) => refusalOf(post('report', { ...from, id: randomUUID(), ...changes }))
    for (const changes of [
      { number: 'R-8' },
      { amendment: 9 },
      { public_token_hash: sha256('R-8') },
      { preview_id: other.id },
    ]) {
      expect([changes, await issue(changes)]).toEqual([changes, 'CB003'])
      await app.query('rollback to s')
    }
    expect(await issue({})).toBe('accepted')
    expect(await issue({})).toBe('23505')
  })
  await inHere(async () =>
    expect(await refusalOf(post('report_preview', { pdf: Buffer.from('%PDF-2') }))).toBe('23514'),
  )
})

test('the bytes of an attachment are those it names', async () => {
  await inHere(async () => {
    const attachment = randomUUID()
    await post('attachment', { id: attachment, bytes: 3, sha256: sha256('abc') })
    await app.query('savepoint s')
    const put = (body: string) =>
      app.query('insert into attachment_body (lab_id, attachment_id, body) values ($1, $2, $3)', [
        here.lab,
        attachment,
        Buffer.from(body),
      ])
    expect(await refusalOf(put('abd'))).toBe('CB003')
    await app.query('rollback to s')
    expect(await refusalOf(put('abc'))).toBe('accepted')
  })
})

test('nothing approved changes: not the revision, its series, nor its recommendation', async () => {
  const statements = [
    `update design_revision set fraction_used = 'all'`,
    `update design_revision set state = 'in-work'`,
    `update mix set water_percent = 8`,
    `delete from mix_component`,
    `update design_method set replicates = 5`,
  ]
  for (const statement of statements) {
    await inHere(async () =>
      expect([statement, await refusalOf(app.query(statement))]).toEqual([statement, 'accepted']),
    )
    await inHere(async () => {
      await app.query(`update design_revision set state = 'approved'`)
      expect([statement, await refusalOf(app.query(statement))]).toEqual([statement, 'CB004'])
    })
  }
  for (const [table, changes] of [
    ['mix', { ordinal: 2 }],
    ['recommendation', { supersedes_id: idOf('recommendation'), reason: 'late' }],
  ] as const)
    await inHere(async () => {
      await app.query(`update design_revision set state = 'approved'`)
      expect(await refusalOf(post(table, changes))).toBe('CB004')
    })
})
