import { expect, test } from 'vitest'
import type { NewOutboxEntry, OutboxEntry } from './outbox-entry.ts'
import { memoryStore } from './outbox-store.fake.ts'
import { createOutbox } from './outbox.ts'

const person = { labId: 'lab', membershipId: 'mo', personName: 'Mo' }
const entry = (id: string, lane: string, ...tests: readonly string[]): NewOutboxEntry => ({
  id,
  lane,
  path: '/x',
  body: { id, rows: tests.map((test) => ({ id: `${id} ${test}` })) },
  label: id,
  topics: [],
  rows: tests.map((test) => ({ id: `${id} ${test}`, lane: test, label: test })),
})

async function deviceWith(refused: readonly string[], ...entries: readonly NewOutboxEntry[]) {
  const kept = new Map<string, OutboxEntry>()
  const sent: string[] = []
  const store = memoryStore(kept)
  const outbox = createOutbox({
    store,
    send: ({ id }) => Promise.resolve(void sent.push(id)),
    now: () => new Date('2026-03-05T14:32:00Z'),
    tell: () => undefined,
  })
  for (const one of entries) await outbox.put(person, one)
  await store.change(refused, (standing) => [{ ...standing, state: 'refused' }])
  return { kept, sent, outbox, inOrder: async () => (await store.all()).map(({ id }) => id) }
}

test('what waits behind refused ones waits behind what replaces them, and the new one behind what is in its other lanes', async () => {
  const { sent, outbox, inOrder } = await deviceWith(
    ['in 1', 'in 2'],
    entry('in 1', 'load/a', 't1'),
    entry('out 1', 'load/a', 't1'),
    entry('cast 3', 't3'),
    entry('in 2', 'load/b', 't2'),
    entry('weigh 1', 't1'),
  )
  await outbox.replace(person, ['in 1', 'in 2'], entry('in', 'load/c', 't1', 't2', 't3'))
  expect(await inOrder()).toEqual(['cast 3', 'in', 'out 1', 'weigh 1'])
  await outbox.sendAll('mo')
  expect(sent).toEqual(['cast 3', 'in', 'out 1', 'weigh 1'])
})

test('pressed again under its own id it keeps its place', async () => {
  const { kept, outbox, inOrder } = await deviceWith(['in'], entry('in', 't1'), entry('out', 't1'))
  await outbox.replace(person, [], entry('in', 't1'))
  expect(await inOrder()).toEqual(['in', 'out'])
  expect(kept.get('in')).toMatchObject({ state: 'queued', attempts: 0 })
})

test('where another tab has sent the refused one again, or taken it out, nothing is lost', async () => {
  const again = await deviceWith([], entry('in', 't1'), entry('out', 't1'))
  await again.outbox.replace(person, ['in'], entry('anew', 't1'))
  expect(await again.inOrder()).toEqual(['in', 'anew', 'out'])
  const gone = await deviceWith([], entry('out', 't1'))
  await gone.outbox.replace(person, ['in'], entry('anew', 't1'))
  expect(await gone.inOrder()).toEqual(['out', 'anew'])
})

test('a refusal that was shown leaves the device only where nothing of its person waits behind it', async () => {
  const { outbox, inOrder } = await deviceWith(
    ['in', 'alone'],
    entry('in', 't1'),
    entry('out', 't1'),
    entry('alone', 't2'),
  )
  await outbox.put({ ...person, membershipId: 'other' }, entry('of another', 't2'))
  await outbox.letGo(['in', 'alone'])
  expect(await inOrder()).toEqual(['in', 'out', 'of another'])
})
