import { createReadStream, createWriteStream } from 'node:fs'
import { rename, rm } from 'node:fs/promises'
import { createGunzip, createGzip } from 'node:zlib'
import { pipeline } from 'node:stream/promises'
import { StartError } from './start-error.ts'

// A backup is one gzip file of frames: a decimal length, a line feed, that many bytes. The first frame is the header, then each
// table has a head, its rows in pieces, and an empty frame; the last frame is the trailer. Heads and trailer are JSON.

export type BackupHeader = {
  format: 'curebook-backup'
  version: 1
  madeAt: string
  migrations: { name: string; checksum: string }[]
  sequences: { name: string; value: string; called: boolean }[]
}
export type TableHead = { table: string; columns: string[] }
export type TableSum = { table: string; rows: number; sha256: string }
export type BackupTrailer = { tables: TableSum[] }

export type BackupWriter = {
  frame(bytes: Buffer): Promise<void>
  json(value: unknown): Promise<void>
  /** Ends the file and waits until the disc has it. @returns where it stands until it is put in its place */
  end(): Promise<string>
  /** Puts the whole file in its place; before, there is none. */
  place(): Promise<void>
  abandon(): Promise<void>
}

export function writeBackupFile(file: string): BackupWriter {
  const unfinished = `${file}.unfinished`
  const gzip = createGzip({ level: 6 })
  const written = pipeline(gzip, createWriteStream(unfinished, { mode: 0o600, flush: true }))
  // Awaited at the end; a failure before that shows in the next frame.
  written.catch(() => undefined)
  const write = (bytes: Buffer | string) =>
    gzip.write(bytes)
      ? Promise.resolve()
      : Promise.race([new Promise<void>((resolve) => gzip.once('drain', resolve)), written])
  const frame = async (bytes: Buffer) => {
    await write(`${bytes.length}\n`)
    await write(bytes)
  }
  return {
    frame,
    json: (value) => frame(Buffer.from(JSON.stringify(value))),
    async end() {
      gzip.end()
      await written
      return unfinished
    },
    place: () => rename(unfinished, file),
    async abandon() {
      gzip.destroy()
      // Only then is the file closed: one that is opened late would come back.
      await written.catch(() => undefined)
      await rm(unfinished, { force: true })
    },
  }
}

export type BackupReader = {
  frame(): Promise<Buffer>
  json<T>(): Promise<T>
  /** Throws StartError when anything follows, or when what was read is not what the file's own check sum says. */
  end(): Promise<void>
  close(): void
}

/** Reads the frames one after another. Throws StartError when the file is not a whole backup. */
export function readBackupFile(file: string): BackupReader {
  const source = createReadStream(file)
  const gunzip = createGunzip()
  source.on('error', (error) => gunzip.destroy(error))
  const chunks = source.pipe(gunzip)[Symbol.asyncIterator]() as AsyncIterator<Buffer>
  let held: Buffer = Buffer.alloc(0)

  async function next(): Promise<IteratorResult<Buffer>> {
    try {
      return await chunks.next()
    } catch (error) {
      throw new StartError(`The backup ${file} cannot be read: ${(error as Error).message}.`)
    }
  }

  async function more(): Promise<void> {
    const piece = await next()
    if (piece.done) throw new StartError(`The backup ${file} is not whole: it ends too early.`)
    held = Buffer.concat([held, piece.value])
  }

  async function frame(): Promise<Buffer> {
    let end: number
    while ((end = held.indexOf(10)) < 0) {
      if (held.length > 20) throw new StartError(`The file ${file} is not a backup of Curebook.`)
      await more()
    }
    const length = Number(held.subarray(0, end).toString())
    if (!Number.isInteger(length) || length < 0) throw new StartError(`The file ${file} is not a backup of Curebook.`)
    held = held.subarray(end + 1)
    while (held.length < length) await more()
    const bytes = held.subarray(0, length)
    held = held.subarray(length)
    return bytes
  }

  return {
    frame,
    json: async <T>() => JSON.parse((await frame()).toString()) as T,
    async end() {
      if (held.length > 0 || !(await next()).done) throw new StartError(`The backup ${file} goes on behind its end.`)
    },
    close: () => source.destroy(),
  }
}
