import { expect, test } from 'vitest'
import { settleEach, type Fate } from './settle-each.ts'

test('each point is settled by itself, in order, and one that is refused stops no other', async () => {
  const sent: string[] = []
  const told: Fate[] = []
  const settle = async (key: string) => {
    sent.push(key)
    if (key === 'b') throw new Error('This point stands in the list no more.')
  }
  const fates = await settleEach(['a', 'b', 'c'], settle, (fate) => told.push(fate))
  expect(sent).toEqual(['a', 'b', 'c'])
  expect(fates).toEqual([
    { key: 'a', refusal: null },
    { key: 'b', refusal: 'This point stands in the list no more.' },
    { key: 'c', refusal: null },
  ])
  expect(told).toEqual(fates)
})
