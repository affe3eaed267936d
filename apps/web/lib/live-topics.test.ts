import { QueryClient, QueryObserver } from '@tanstack/react-query'
import { expect, test, vi } from 'vitest'
import { concerns, refreshTopics } from './live-topics.ts'

test.each([
  [['design:1'], ['design:1'], true],
  [['design'], ['design:1'], true],
  [['design:1'], ['design'], true],
  [['design:1'], ['design:2'], false],
  [['design'], ['designs'], false],
  [['bench', 'person:3'], ['person:3'], true],
])('a query on %j is concerned by %j: %s', (query, event, expected) => {
  expect(concerns(query, event)).toBe(expected)
})

test('an event makes exactly the queries on its topics stale', async () => {
  const client = new QueryClient()
  await client.prefetchQuery({ queryKey: ['a'], queryFn: () => 1, meta: { topics: ['design'] } })
  await client.prefetchQuery({ queryKey: ['b'], queryFn: () => 1, meta: { topics: ['ledger'] } })
  await refreshTopics(client, ['design:7'])
  expect(client.getQueryState(['a'])?.isInvalidated).toBe(true)
  expect(client.getQueryState(['b'])?.isInvalidated).toBe(false)
})

test('a first fetch that began before a change is made again after it', async () => {
  const client = new QueryClient()
  const answers: ((value: string) => void)[] = []
  const observer = new QueryObserver(client, {
    queryKey: ['rack'],
    queryFn: () => new Promise<string>((resolve) => answers.push(resolve)),
    meta: { topics: ['bench'] },
  })
  const stop = observer.subscribe(() => undefined)
  const refreshed = refreshTopics(client, ['bench'])
  answers[0]?.('before the change')
  await vi.waitUntil(() => answers.length === 2)
  answers[1]?.('after it')
  await refreshed
  expect(observer.getCurrentResult().data).toBe('after it')
  stop()
})
