import { expect, test } from 'vitest'
import { stockOf } from './stock.ts'

test('what is left is what came less what batches drew and splits lost', () => {
  expect(stockOf({ receivedG: '10000', drawnG: '1204.35', lostG: '12.5', goneG: '0' })).toEqual({
    leftG: '8783.15',
    overdrawn: false,
  })
  expect(stockOf({ receivedG: '10000', drawnG: '9987.5', lostG: '12.5', goneG: '0' })).toEqual({
    leftG: '0',
    overdrawn: false,
  })
})

test('more drawn than came is said, not shown as less than nothing', () => {
  expect(stockOf({ receivedG: '1000', drawnG: '1000.1', lostG: '0', goneG: '0' })).toEqual({
    leftG: '0',
    overdrawn: true,
  })
})

test('of what was never weighed nobody knows what is left', () => {
  expect(stockOf({ receivedG: null, drawnG: '96.4', lostG: '0', goneG: '0' })).toEqual({
    leftG: null,
    overdrawn: false,
  })
})

test('what went away in pieces is not here any more', () => {
  expect(stockOf({ receivedG: '25000', drawnG: '4000', lostG: '0', goneG: '1000' }).leftG).toBe('20000')
})
