import pg from 'pg'
import { checkBackupFile } from './backup-check.ts'
import {
  writeBackupFile,
  type BackupHeader,
  type BackupTrailer,
  type BackupWriter,
  type TableSum,
} from './backup-file.ts'
import { copyTable, readTables } from './backup-tables.ts'
import { readApplied } from './migrate.ts'
import { textSettings } from './text-settings.ts'

/**
 * Writes every row of the database, as it stands at one moment, to one file (0600), while people go on working. In it are
 * password hashes and sessions: keep it as you keep the database. Waiting jobs are not in it.
 * It is read back and held against what the database gave before it is put in its place.
 * Throws when the file cannot be written or does not read back; then there is none.
 */
export async function backup(
  ownerUrl: string,
  file: string,
  now: Date,
  openWriter: (file: string) => BackupWriter = writeBackupFile,
): Promise<TableSum[]> {
  const client = new pg.Client({
    connectionString: ownerUrl,
    application_name: 'curebook backup',
    options: textSettings,
  })
  await client.connect()
  const writer = openWriter(file)
  try {
    await client.query('begin isolation level repeatable read, read only')
    const migrations = [...(await readApplied(client))].map(([name, checksum]) => ({ name, checksum }))
    const header: BackupHeader = {
      format: 'curebook-backup',
      version: 1,
      madeAt: now.toISOString(),
      migrations,
      sequences: await readSequences(client),
    }
    await writer.json(header)
    const tables: TableSum[] = []
    const heads = await readTables(client)
    for (const head of heads) {
      await writer.json(head)
      tables.push(await copyTable(client, head, (chunk) => writer.frame(chunk)))
      await writer.frame(Buffer.alloc(0))
    }
    await client.query('commit')
    await writer.json({ tables } satisfies BackupTrailer)
    await checkBackupFile(await writer.end(), { header, heads, tables })
    await writer.place()
    return tables
  } catch (error) {
    await writer.abandon()
    throw error
  } finally {
    await client.end()
  }
}

async function readSequences(client: pg.Client): Promise<BackupHeader['sequences']> {
  const { rows } = await client.query<{ name: string }>(
    `select quote_ident(relname) as name from pg_class where relkind = 'S' and relnamespace = 'public'::regnamespace order by relname`,
  )
  const sequences: BackupHeader['sequences'] = []
  for (const { name } of rows) {
    const state = await client.query<{ value: string; called: boolean }>(
      `select last_value::text as value, is_called as called from public.${name}`,
    )
    sequences.push({ name, ...state.rows[0]! })
  }
  return sequences
}
