import { expect, test } from 'vitest'
import { createBoxActs } from './box-acts.ts'

const at = (seconds: number) => ({
  eventAt: `2026-03-05T11:22:00.${String(seconds).padStart(3, '0')}Z`,
  eventFrom: 'paper' as const,
  toldAt: `2026-03-05T15:00:${String(seconds).padStart(2, '0')}Z`,
  sentAt: `2026-03-05T15:00:${String(seconds).padStart(2, '0')}Z`,
})
const box = (seconds: number, more: object = {}) => ({
  key: 't1/mass',
  typed: '812.4',
  written: '2026-03-05 11:22',
  time: at(seconds),
  ...more,
})
function acts() {
  let made = 0
  return createBoxActs(() => `id ${(made += 1)}`)
}

test('sent again a minute later it is the same act, told at the same time', () => {
  const { of } = acts()
  expect(of(box(1))).toEqual({ id: 'id 1', time: at(1) })
  expect(of(box(40))).toEqual({ id: 'id 1', time: at(1) })
})

test.each([{ typed: '812.5' }, { written: '2026-03-05 11:23' }, { written: '2026-03-04 11:22' }, { key: 't2/mass' }])(
  'written otherwise (%j) it is another act',
  (change) => {
    const { of } = acts()
    of(box(1))
    expect(of(box(40, change))).toEqual({ id: 'id 2', time: at(40) })
  },
)

test('refused it is another act the next time, and without a time it is none', () => {
  const { of, forget } = acts()
  of(box(1))
  forget(box(1))
  expect(of(box(40))).toEqual({ id: 'id 2', time: at(40) })
  expect(of(box(40, { time: undefined }))).toBeUndefined()
})
