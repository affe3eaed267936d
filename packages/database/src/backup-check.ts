import { createHash } from 'node:crypto'
import { readBackupFile, type BackupHeader, type BackupReader, type TableHead, type TableSum } from './backup-file.ts'
import { StartError } from './start-error.ts'

/** What the database gave: a written backup is held against it. */
export type BackupContents = { header: BackupHeader; heads: readonly TableHead[]; tables: readonly TableSum[] }

/**
 * Reads a written backup back from its first byte to its last, a frame at a time, and holds header, heads, rows and digests
 * of every table and the trailer against what the database gave. Throws StartError naming the first thing that differs.
 */
export async function checkBackupFile(file: string, { header, heads, tables }: BackupContents): Promise<void> {
  const reader = readBackupFile(file)
  try {
    expectSame(await reader.json(), header, 'its header')
    for (const [place, head] of heads.entries()) {
      expectSame(await reader.json(), head, `the columns of “${head.table}”`)
      expectSame(await sumOfFrames(reader, head.table), tables[place], `the rows of “${head.table}”`)
    }
    expectSame(await reader.json(), { tables }, 'its trailer')
    await reader.end()
  } catch (error) {
    const why = error instanceof SyntaxError ? 'what should be its structure cannot be read' : (error as Error).message
    throw new StartError(
      `The backup does not read back as the database gave it, and was not put in its place: ${why.replace(/\.$/, '')}. Make it again; if that happens again, write it to another disc.`,
    )
  } finally {
    reader.close()
  }
}

function expectSame(found: unknown, wanted: unknown, what: string): void {
  if (JSON.stringify(found) !== JSON.stringify(wanted)) throw new StartError(`${what} came out otherwise than written`)
}

async function sumOfFrames(reader: BackupReader, table: string): Promise<TableSum> {
  const hash = createHash('sha256')
  let rows = 0
  for (let frame = await reader.frame(); frame.length > 0; frame = await reader.frame()) {
    rows += 1
    hash.update(frame)
  }
  return { table, rows, sha256: hash.digest('hex') }
}
