import { createHash } from 'node:crypto'
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { gunzipSync, gzipSync } from 'node:zlib'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { connect } from '../../../tests/support/as-login.ts'
import { cloneDatabase, type ClonedDatabase } from '../../../tests/support/database.ts'
import { fillLaboratory } from '../../../tests/support/fill-laboratory.ts'
import { checkBackupFile, type BackupContents } from './backup-check.ts'
import { writeBackupFile } from './backup-file.ts'
import { backup } from './backup.ts'

const rows = ['1\tnine\n', '2\tten\n', '3\televen\n']
const contents: BackupContents = {
  header: { format: 'curebook-backup', version: 1, madeAt: '2026-03-02T08:00:00.000Z', migrations: [], sequences: [] },
  heads: [{ table: 'each', columns: ['n', 'word'] }],
  tables: [{ table: 'each', rows: 3, sha256: createHash('sha256').update(rows.join('')).digest('hex') }],
}
let folder: string
let whole: string
let database: ClonedDatabase

beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'curebook-check-'))
  whole = path.join(folder, 'whole')
  const writer = writeBackupFile(whole)
  await writer.json(contents.header)
  await writer.json(contents.heads[0])
  for (const row of [...rows, '']) await writer.frame(Buffer.from(row))
  await writer.json({ tables: contents.tables })
  await writer.end()
  await writer.place()
  database = await cloneDatabase()
  const owner = await connect(database.ownerUrl)
  await fillLaboratory(owner)
  await owner.end()
})

afterAll(async () => {
  await database.drop()
  await rm(folder, { recursive: true, force: true })
})

/** The same file with its frames as text changed, or its packed bytes. */
async function changed(change: (frames: string) => string, pack: (bytes: Buffer) => Buffer = gzipSync) {
  const file = path.join(folder, 'changed')
  await writeFile(file, pack(Buffer.from(change(gunzipSync(await readFile(whole)).toString()))))
  return file
}

test('a file that holds what the database gave is passed', async () => {
  await checkBackupFile(whole, contents)
})

test.each<[string, (frames: string) => string, RegExp]>([
  ['a digit of a row', (frames) => frames.replace('2\tten', '4\tten'), /the rows of “each” came out otherwise/],
  ['a row in two', (frames) => frames.replace('6\n2\tten\n', '3\n2\tt3\nen\n'), /the rows of “each”/],
  ['a row gone', (frames) => frames.replace('6\n2\tten\n', ''), /the rows of “each”/],
  [
    'two rows changed about',
    (frames) => frames.replace('7\n1\tnine\n6\n2\tten\n', '6\n2\tten\n7\n1\tnine\n'),
    /rows of/,
  ],
  ['a length', (frames) => frames.replace('6\n2', '5\n2'), /not a backup|structure|otherwise/],
  ['the columns', (frames) => frames.replace('["n","word"]', '["word","n"]'), /the columns of “each”/],
  ['the header', (frames) => frames.replace('08:00', '09:00'), /its header/],
  ['the trailer', (frames) => frames.replace('"rows":3', '"rows":4'), /its trailer/],
  ['the structure', (frames) => frames.replace('{"table"', '["table"'), /structure/],
  ['the end', (frames) => frames.slice(0, -3), /ends too early/],
  ['more behind it', (frames) => `${frames}0\n`, /goes on behind its end/],
])('damaged in one place, the file is told as such: %s', async (_, change, why) => {
  await expect(checkBackupFile(await changed(change), contents)).rejects.toThrow(why)
})

test('a packed file whose own check sum does not hold is told as such', async () => {
  const file = await changed(
    (frames) => frames,
    (bytes) => {
      const packed = gzipSync(bytes)
      packed[packed.length - 8]! ^= 1
      return packed
    },
  )
  await expect(checkBackupFile(file, contents)).rejects.toThrow(/does not read back.*cannot be read/)
})

test('a backup whose bytes change on their way to the disc is refused, and no file is left', async () => {
  const target = path.join(folder, 'on-its-way')
  const made = backup(database.ownerUrl, target, new Date(), (file) => {
    const writer = writeBackupFile(file)
    const overwritten = (bytes: Buffer) =>
      bytes.includes('812.40') ? Buffer.from(bytes.toString().replace('812.40', '812.41')) : bytes
    return { ...writer, frame: (bytes) => writer.frame(overwritten(bytes)) }
  })
  await expect(made).rejects.toThrow(/the rows of “reading” came out otherwise than written/)
  expect((await readdir(folder)).filter((name) => name.startsWith('on-its-way'))).toEqual([])
})

test('a disc that cannot be written to is told, and no file is left', async () => {
  await expect(backup(database.ownerUrl, path.join(folder, 'nowhere', 'file'), new Date())).rejects.toThrow(/ENOENT/)
})
