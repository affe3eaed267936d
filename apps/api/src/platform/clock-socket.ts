import { rmSync } from 'node:fs'
import { createServer, type Server, type Socket } from 'node:net'
import { createInterface } from 'node:readline'
import { z } from 'zod'
import type { ControlledClock } from './clock.ts'

const OrderSchema = z.union([
  z.strictObject({ set: z.iso.datetime({ offset: true }) }),
  z.strictObject({ advance: z.number().int().min(0) }),
  z.strictObject({ read: z.literal(true) }),
])

/**
 * Lets a test move the clock of a running server: a JSON line `{"set": "2026-03-05T14:35:00Z"}` or `{"advance": 60000}`
 * (milliseconds) is answered by `{"now": "…"}`. Never opened in production: the configuration refuses it.
 */
export async function openClockSocket(clock: ControlledClock, path: string): Promise<Server> {
  rmSync(path, { force: true })
  const server = createServer((socket) => void answerLines(clock, socket))
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject)
    server.listen(path, resolve)
  })
  return server
}

async function answerLines(clock: ControlledClock, socket: Socket): Promise<void> {
  socket.on('error', () => socket.destroy())
  for await (const line of createInterface({ input: socket })) {
    if (!socket.writable) return
    socket.write(`${JSON.stringify(obey(clock, line))}\n`)
  }
}

function obey(clock: ControlledClock, line: string): { now: string } | { error: string } {
  try {
    const order = OrderSchema.parse(JSON.parse(line))
    if ('set' in order) clock.set(order.set)
    if ('advance' in order) clock.advance({ milliseconds: order.advance })
    return { now: clock.now().toISOString() }
  } catch (error) {
    return { error: (error as Error).message }
  }
}
