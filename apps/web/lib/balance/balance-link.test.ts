import type { LineSettings } from '@curebook/contract/line-settings'
import { expect, test, vi } from 'vitest'
import { fakePort } from './balance-link.fake.ts'
import { createBalanceLink } from './balance-link.ts'
import type { SentWeight } from './sent-weight.ts'

const line: LineSettings = {
  ...{ baudRate: 4800, dataBits: 7, parity: 'even', stopBits: 1 },
  ...{ example: 'ST,GS,+  0812.4 g', shown: '812.4' },
}

async function connected() {
  let time = 1_000_000
  const link = createBalanceLink(() => time)
  const balance = fakePort()
  await link.connect('b-1', line, async () => balance.port)
  return { link, balance, pass: (ms: number) => (time += ms) }
}
const heard = () => {
  const weights: SentWeight[] = []
  return { weights, take: (weight: SentWeight) => void weights.push(weight) }
}

test('opens the line as the balance is set, and hands what it sends to the open field', async () => {
  const { link, balance, pass } = await connected()
  expect(balance.opened).toMatchObject([{ baudRate: 4800, dataBits: 7, parity: 'even', stopBits: 1 }])
  expect(link.state()).toEqual({ state: 'connected', instrumentId: 'b-1' })
  const { weights, take } = heard()
  link.listen(take)
  pass(5000)
  balance.send('ST,GS,+  08')
  balance.send('12.4 g\r\n')
  await vi.waitFor(() => expect(weights).toEqual([{ kind: 'weight', typed: '812.4 g', pressed: true }]))
})

test('the field that was opened last hears it, and alone', async () => {
  const { link, balance } = await connected()
  const [first, second] = [heard(), heard()]
  link.listen(first.take)
  const close = link.listen(second.take)
  balance.send('OL\r')
  await vi.waitFor(() => expect(second.weights).toMatchObject([{ kind: 'not-understood' }]))
  close()
  balance.send('ST,GS,+  0812.4 g\r')
  await vi.waitFor(() => expect(first.weights).toMatchObject([{ kind: 'weight' }]))
  expect(second.weights).toHaveLength(1)
})

test('what comes right after connecting, or right behind another line, was not pressed for', async () => {
  const { link, balance, pass } = await connected()
  const { weights, take } = heard()
  link.listen(take)
  const send = async (digits: string) => {
    const before = weights.length
    balance.send(`ST,GS,+  ${digits} g\r`)
    await vi.waitFor(() => expect(weights).toHaveLength(before + 1))
  }
  pass(100)
  await send('0812.4')
  pass(3000)
  await send('0773.7')
  pass(200)
  await send('0773.7')
  expect(weights).toMatchObject([{ pressed: false }, { pressed: true }, { pressed: false }])
})

test('what was stored is held over until the balance sends anything else', async () => {
  const { link, balance } = await connected()
  const { weights, take } = heard()
  link.listen(take)
  const send = async (line: string) => {
    const before = weights.length
    balance.send(`${line}\r`)
    await vi.waitFor(() => expect(weights).toHaveLength(before + 1))
    return link.heldOver()
  }
  link.stored('812.4 g')
  expect(await send('ST,GS,+  0812.4 g')).toBe('812.4 g')
  expect(await send('US,GS,+  0300.0 g')).toBeUndefined()
  link.stored('812.4 g')
  expect(await send('ST,GS,+  0773.7 g')).toBeUndefined()
})

test('a line that breaks off is lost and says so; connected again it reads again', async () => {
  const { link, balance } = await connected()
  const told = vi.fn()
  link.watch(told)
  balance.breakOff()
  await vi.waitFor(() => expect(link.state()).toEqual({ state: 'lost', instrumentId: 'b-1' }))
  expect(told).toHaveBeenCalled()
  const again = fakePort()
  await link.connect('b-1', line, async () => again.port)
  expect(link.state().state).toBe('connected')
  await link.disconnect()
  await Promise.resolve()
  expect(link.state()).toEqual({ state: 'off', instrumentId: undefined })
})

test('nothing chosen says nothing; a port that does not open says why', async () => {
  const link = createBalanceLink()
  const turnedAway = Object.assign(new Error('No port selected by the user.'), { name: 'NotFoundError' })
  await link.connect('b-1', line, () => Promise.reject(turnedAway))
  expect(link.state()).toEqual({ state: 'off', instrumentId: undefined })
  const taken = fakePort(new Error('Failed to open serial port.'))
  await link.connect('b-1', line, async () => taken.port)
  expect(link.state()).toMatchObject({ state: 'not-opened', reason: 'Failed to open serial port.' })
})
