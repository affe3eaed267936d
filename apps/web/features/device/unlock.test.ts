import { afterEach, expect, test, vi } from 'vitest'
import { judgePin, rememberPin } from '#lib/tablet/pin-here.ts'
import { unlock } from './unlock.ts'

afterEach(() => vi.unstubAllGlobals())

function device() {
  const kept = new Map<string, string>()
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  } as Storage
}
const server = (answer: () => Promise<Response>) => vi.stubGlobal('fetch', answer)
const says = (status: number) => () => Promise.resolve(Response.json({ title: 'No' }, { status }))
const away = {
  'no network': () => Promise.reject(new TypeError('gone')),
  502: says(502),
  503: says(503),
  504: says(504),
}

test.each(Object.entries(away))('with %s the PIN is judged here, and is not forgotten', async (_, answer) => {
  const storage = device()
  await rememberPin(storage, 'ada', '4711')
  server(answer)
  await unlock(storage, 'ada', { pin: '4711' })
  await expect(unlock(storage, 'ada', { pin: '0000' })).rejects.toMatchObject({ code: 'wrong-pin' })
  await unlock(storage, 'ada', { pin: '4711' })
  await expect(unlock(storage, 'bram', { pin: '4711' })).rejects.not.toMatchObject({ code: 'wrong-pin' })
  await expect(unlock(storage, 'ada', { password: 'right' })).rejects.toBeDefined()
})

test('what the server refuses opens here no more; a fault of the server says nothing of the PIN', async () => {
  const storage = device()
  await rememberPin(storage, 'ada', '4711')
  server(says(500))
  await expect(unlock(storage, 'ada', { pin: '4711' })).rejects.toMatchObject({ status: 500 })
  expect(await judgePin(storage, 'ada', '4711')).toBe('right')
  server(says(401))
  await expect(unlock(storage, 'ada', { pin: '4711' })).rejects.toMatchObject({ status: 401 })
  expect(await judgePin(storage, 'ada', '4711')).toBe('unknown')
})

test('what the server takes is remembered here', async () => {
  const storage = device()
  server(() => Promise.resolve(new Response(null, { status: 204 })))
  await unlock(storage, 'ada', { pin: '4711' })
  expect(await judgePin(storage, 'ada', '4711')).toBe('right')
})
