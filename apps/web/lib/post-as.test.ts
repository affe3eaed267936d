import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { afterEach, expect, test, vi } from 'vitest'
import { postAs } from './post-as.ts'

afterEach(() => {
  vi.unstubAllGlobals()
  vi.useRealTimers()
})

test('what a person entered goes under their name, with the time of this sending', async () => {
  const sent: RequestInit[] = []
  vi.stubGlobal('fetch', (_: string, request: RequestInit) => {
    sent.push(request)
    return Promise.resolve(Response.json({ ok: true }))
  })
  vi.useFakeTimers({ now: new Date('2026-03-05T14:40:00Z') })
  const body = { id: 'a', time: { eventAt: '2026-03-05T14:32:00.000Z', sentAt: '2026-03-05T14:32:00.000Z' } }
  await postAs({ membershipId: 'ada' }, '/x', body)
  expect(sent[0]!.headers).toMatchObject({ 'x-membership': 'ada' })
  expect(JSON.parse(sent[0]!.body as string)).toEqual({
    ...body,
    time: { ...body.time, sentAt: '2026-03-05T14:40:00.000Z' },
  })
})

test.each([
  'bench/bench.queries.ts',
  'bench-sheet/use-sheet-sending.ts',
  'conditions/conditions.queries.ts',
  'custody/custody.queries.ts',
  'trials/trials.queries.ts',
  'notices/notices.queries.ts',
  'put-in/put-in.queries.ts',
  'attachments/attachments.queries.ts',
  'questions/questions.queries.ts',
  'instruments/upkeep.queries.ts',
  'deviations/deviations.queries.ts',
  'review/review.queries.ts',
  'reports/reports.queries.ts',
  'expected-days/expected-days.queries.ts',
])('%s posts nothing without a name, and writes no time of sending of its own', (file) => {
  const text = readFileSync(fileURLToPath(new URL(`../features/${file}`, import.meta.url)), 'utf8')
  expect(text).toContain('postAs')
  expect(text).not.toMatch(/postJson|sentAt/)
})
