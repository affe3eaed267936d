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
