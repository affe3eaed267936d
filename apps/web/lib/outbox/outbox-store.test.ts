import 'fake-indexeddb/auto'
import { afterAll, expect, test, vi } from 'vitest'
import type { OutboxEntry } from './outbox-entry.ts'
import { openOutboxStore } from './outbox-store.ts'

const entry = (id: string, order: number): OutboxEntry => ({
  id,
  lane: 't',
  path: '/x',
  body: {},
  label: id,
  topics: [],
  labId: 'l',
  membershipId: 'me',
  personName: 'Me',
  queuedAt: '',
  order,
  attempts: 0,
  state: 'queued',
})
vi.stubGlobal('navigator', {})
afterAll(() => vi.unstubAllGlobals())

const ids = async (store: Awaited<ReturnType<typeof openOutboxStore>>) => (await store.all()).map(({ id }) => id)

test('of two tabs, what one takes away the other does not bring back, whichever comes first', async () => {
  const [one, other] = [await openOutboxStore(), await openOutboxStore()]
  await one.put([entry('a', 1), entry('b', 2), entry('c', 3)])
  const again = (standing: OutboxEntry) => [{ ...standing, attempts: standing.attempts + 1 }]
  const [, changed] = await Promise.all([one.remove('a'), other.change(['a', 'b', 'gone'], again)])
  expect(await ids(one)).toEqual(['b', 'c'])
  expect(changed.map(({ id }) => id)).toContain('b')
  const both = await Promise.all([one.change(['b'], again), other.change(['b'], again)])
  expect(both.flat().map(({ attempts }) => attempts)).toEqual([2, 3])
  const pieces = (standing: OutboxEntry) => ['c1', 'c2'].map((id) => ({ ...standing, id }))
  expect((await other.change(['c'], pieces)).map(({ id }) => id)).toEqual(['c1', 'c2'])
  expect(await one.change(['c'], pieces)).toEqual([])
  expect(await ids(one)).toEqual(['b', 'c1', 'c2'])
})
