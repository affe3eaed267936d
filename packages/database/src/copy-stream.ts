import type pg from 'pg'

// pg speaks the COPY messages and leaves what to do with them to a query object of one's own: these two are those objects.

type Connection = {
  query(text: string): void
  sendCopyFromChunk(chunk: Buffer): void
  endCopyFrom(): void
  sendCopyFail(message: string): void
  stream: {
    writableNeedDrain: boolean
    once(event: 'drain', listener: () => void): void
    pause(): void
    resume(): void
  }
}

/** Runs `copy … to stdout` and hands over each piece in turn; the server waits while any is being dealt with. */
export function copyOut(client: pg.Client, sql: string, take: (chunk: Buffer) => Promise<void>): Promise<void> {
  let taking = Promise.resolve()
  let waiting = 0
  return submit(client, sql, {
    handleCopyData({ chunk }, connection) {
      // pg hands over a view of its own buffer and writes the next messages over it; what waits needs bytes of its own.
      const own = Buffer.from(chunk)
      waiting += 1
      connection.stream.pause()
      taking = taking
        .then(() => take(own))
        .finally(() => {
          waiting -= 1
          if (waiting === 0) connection.stream.resume()
        })
      // Told at the end; nobody waits for it before, and a failure that nobody waits for ends the process.
      taking.catch(() => undefined)
    },
    beforeEnd: () => taking,
  })
}

/** Runs `copy … from stdin` with the pieces of `source`; a failing source undoes the statement. */
export function copyIn(client: pg.Client, sql: string, source: AsyncIterable<Buffer>): Promise<void> {
  return submit(client, sql, {
    handleCopyInResponse(connection) {
      feed(connection, source).then(
        () => connection.endCopyFrom(),
        (error: Error) => connection.sendCopyFail(error.message),
      )
    },
  })
}

async function feed(connection: Connection, source: AsyncIterable<Buffer>): Promise<void> {
  for await (const chunk of source) {
    connection.sendCopyFromChunk(chunk)
    if (connection.stream.writableNeedDrain)
      await new Promise<void>((resolve) => connection.stream.once('drain', resolve))
  }
}

type Handlers = {
  handleCopyData?: (message: { chunk: Buffer }, connection: Connection) => void
  handleCopyInResponse?: (connection: Connection) => void
  beforeEnd?: () => Promise<void>
}

function submit(client: pg.Client, sql: string, handlers: Handlers): Promise<void> {
  return new Promise((resolve, reject) => {
    const ignore = () => undefined
    let failure: Error | undefined
    const query = {
      submit: (connection: Connection) => connection.query(sql),
      handleRowDescription: ignore,
      handleDataRow: ignore,
      handleCommandComplete: ignore,
      handlePortalSuspended: ignore,
      handleEmptyQuery: ignore,
      handleCopyData: handlers.handleCopyData ?? ignore,
      handleCopyInResponse: handlers.handleCopyInResponse ?? ignore,
      handleError(error: Error) {
        failure = error
        reject(error)
      },
      handleReadyForQuery() {
        if (failure) return
        void (handlers.beforeEnd?.() ?? Promise.resolve()).then(resolve, reject)
      },
    }
    client.query(query as unknown as pg.Submittable)
  })
}
