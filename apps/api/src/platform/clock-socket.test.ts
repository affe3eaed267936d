import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { createConnection } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { expect, test } from 'vitest'
import { createControlledClock } from './clock.ts'
import { openClockSocket } from './clock-socket.ts'

test('a running server’s clock is set and moved by lines on its socket, and answers each', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'clock-'))
  const clock = createControlledClock('2026-03-02T07:00:00Z')
  const server = await openClockSocket(clock, join(folder, 'clock.sock'))
  const socket = createConnection(join(folder, 'clock.sock'))
  const answers = createInterface({ input: socket })[Symbol.asyncIterator]()
  const order = async (line: string) => {
    socket.write(`${line}\n`)
    return JSON.parse((await answers.next()).value as string) as object
  }
  expect(await order('{"set":"2026-03-05T14:35:00+00:00"}')).toEqual({ now: '2026-03-05T14:35:00.000Z' })
  expect(await order('{"advance":60000}')).toEqual({ now: '2026-03-05T14:36:00.000Z' })
  expect(await order('{"advance":-1}')).toHaveProperty('error')
  expect(await order('later')).toHaveProperty('error')
  expect(clock.now().toISOString()).toBe('2026-03-05T14:36:00.000Z')
  socket.end()
  server.close()
  await once(server, 'close')
  rmSync(folder, { recursive: true })
})
