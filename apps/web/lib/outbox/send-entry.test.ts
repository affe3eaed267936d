import { afterEach, expect, test, vi } from 'vitest'
import { sendEntry } from './send-entry.ts'

afterEach(() => vi.unstubAllGlobals())

test('an entry says whose it is', async () => {
  const sent: RequestInit[] = []
  vi.stubGlobal('fetch', (_: string, request: RequestInit) => {
    sent.push(request)
    return Promise.resolve(Response.json({ ok: true }))
  })
  expect(await sendEntry({ path: '/x', body: { id: 'a' }, membershipId: 'ada' })).toEqual({ ok: true })
  expect(sent.map(({ headers, body }) => [headers, body])).toEqual([
    [{ accept: 'application/json', 'content-type': 'application/json', 'x-membership': 'ada' }, '{"id":"a"}'],
  ])
})

test('a row that was refused is a refusal, with its sentence', async () => {
  const rows = [
    { id: 'x', outcome: 'done', sentence: null },
    { id: 'y', outcome: 'refused', sentence: 'Disc 1: “In the oven” is confirmed already.' },
  ]
  vi.stubGlobal('fetch', () => Promise.resolve(Response.json({ rows })))
  await expect(sendEntry({ path: '/x', body: { rows: [] }, membershipId: 'ada' })).rejects.toMatchObject({
    code: 'refused-rows',
    message: 'Disc 1: “In the oven” is confirmed already.',
  })
})

test('a row of a load that was refused is a refusal too', async () => {
  const outcome = { rows: [{ id: 'x', outcome: 'refused', sentence: 'It is not in this load.' }] }
  vi.stubGlobal('fetch', () => Promise.resolve(Response.json({ outcome, load: {} })))
  await expect(sendEntry({ path: '/x', body: { rows: [] }, membershipId: 'ada' })).rejects.toMatchObject({
    code: 'refused-rows',
    extra: { answer: { outcome } },
  })
})

/** A server that takes the request and says nothing; or begins to answer and stops. */
const silent = (_: string, { signal }: RequestInit) =>
  new Promise<Response>((_resolve, reject) => signal!.addEventListener('abort', () => reject(signal!.reason as Error)))
const stopping = (_: string, { signal }: RequestInit) => {
  const body = new ReadableStream({
    start(stream) {
      stream.enqueue(new TextEncoder().encode('{"ok":'))
      signal!.addEventListener('abort', () => stream.error(signal!.reason))
    },
  })
  return Promise.resolve(new Response(body, { headers: { 'content-type': 'application/json' } }))
}

test.each([silent, stopping])('a request that hangs is given up as no answer', async (fetch) => {
  vi.stubGlobal('fetch', fetch)
  await expect(sendEntry({ path: '/x', body: {}, membershipId: 'ada' }, 5)).rejects.toMatchObject({
    code: 'network',
    status: 0,
  })
})

test.each([
  [{}, 30_001],
  [{ base64: 'x'.repeat(1_600_000) }, 130_001],
])('it has half a minute, and more for what is large', async (body, limit) => {
  const timeout = vi.spyOn(AbortSignal, 'timeout')
  vi.stubGlobal('fetch', () => Promise.resolve(Response.json({})))
  await sendEntry({ path: '/x', body, membershipId: 'ada' })
  expect(timeout.mock.calls).toEqual([[limit]])
  timeout.mockRestore()
})
