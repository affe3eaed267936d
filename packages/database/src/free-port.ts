import { createServer } from 'node:net'

/** Whether a server could listen on that port of this machine now. */
export function isFree(port: number): Promise<boolean> {
  return listenOnce(port).then(
    () => true,
    () => false,
  )
}

/** A port of this machine that nobody listens on. */
export const freePort = (): Promise<number> => listenOnce(0)

function listenOnce(port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer()
    probe.once('error', reject)
    probe.listen(port, '127.0.0.1', () => {
      const { port: taken } = probe.address() as { port: number }
      probe.close(() => resolve(taken))
    })
  })
}
