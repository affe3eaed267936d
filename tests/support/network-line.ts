import { connect, createServer, type Server, type Socket } from 'node:net'

/**
 * A line between a browser and the server that can be cut: `down` ends every connection and refuses new ones, as a network
 * that is gone does for whatever asks (pages, workers, streams); `swallow` lets requests arrive and cuts each answer off.
 */
export async function networkLine(target: string) {
  const to = Number(new URL(target).port)
  const open = new Set<Socket>()
  let server: Server | undefined
  let swallowing: ((request: string) => boolean) | undefined
  let swallowed = 0

  function carry(from: Socket): void {
    const onwards = connect(to, '127.0.0.1')
    let cut = false
    const end = () => {
      from.destroy()
      onwards.destroy()
    }
    for (const socket of [from, onwards]) {
      open.add(socket)
      socket.on('error', end).on('close', () => {
        open.delete(socket)
        end()
      })
    }
    from.on('data', (sent) => {
      cut ||= swallowing?.(sent.toString('latin1')) ?? false
      onwards.write(sent)
    })
    onwards.on('data', (answer) => {
      if (!cut) return void from.write(answer)
      swallowed += 1
      end()
    })
  }
  const listen = (port: number) =>
    new Promise<number>((resolve) => {
      const made = createServer(carry)
      server = made
      made.listen(port, '127.0.0.1', () => resolve((made.address() as { port: number }).port))
    })
  const port = await listen(0)

  return {
    url: `http://127.0.0.1:${port}`,
    async down() {
      const gone = server
      server = undefined
      if (gone === undefined) return
      const closed = new Promise<void>((resolve) => gone.close(() => resolve()))
      for (const socket of open) socket.destroy()
      await closed
    },
    async up() {
      if (server === undefined) await listen(port)
    },
    /** Cuts the answer of requests whose head says so, until told to stop; returns how many were cut since. */
    swallow(wanted: ((request: string) => boolean) | undefined): number {
      const before = swallowed
      swallowed = 0
      swallowing = wanted
      return before
    },
  }
}
