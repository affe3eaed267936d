import { expect, test } from 'vitest'
import { paperTime, readClock } from './paper-time.ts'

test.each([
  ['9:40', '09:40'],
  ['09.40', '09:40'],
  ['0940', '09:40'],
  ['24:00', undefined],
  ['9:60', undefined],
  ['morning', undefined],
  ['', undefined],
])('%s on paper is %s', (typed, clock) => expect(readClock(typed)).toBe(clock))

test('a time on paper is of its day in the laboratory, told now, by the device’s clock', () => {
  const deviceNow = Date.parse('2026-03-05T18:00:00Z')
  expect(paperTime('2026-03-04', '09:40', { zone: 'Europe/Berlin', deviceNow, offset: 60_000 })).toEqual({
    eventAt: '2026-03-04T08:39:00.000Z',
    eventFrom: 'paper',
    toldAt: '2026-03-05T18:00:00.000Z',
    sentAt: '2026-03-05T18:00:00.000Z',
  })
})
