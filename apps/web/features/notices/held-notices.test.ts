import type { Notice } from '@curebook/contract/notices'
import { expect, test } from 'vitest'
import { noticesShown } from './held-notices.ts'

const notice = (id: string): Notice => ({
  ...{ id, kind: 'given', at: '2026-03-02T08:00:00Z', others: [], reason: null, tests: [] },
  by: { membershipId: 'm', name: 'M', initials: 'M' },
})
const ids = (notices: readonly Notice[]) => notices.map(({ id }) => id)

test('what came while one works waits, what was seen goes, and at first all is shown', () => {
  const [a, b, c] = [notice('a'), notice('b'), notice('c')]
  expect(ids(noticesShown([a, b], null))).toEqual(['a', 'b'])
  expect(ids(noticesShown([c, a, b], new Set(['a', 'b'])))).toEqual(['a', 'b'])
  expect(ids(noticesShown([c, b], new Set(['a', 'b'])))).toEqual(['b'])
})
