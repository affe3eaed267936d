import { describe, expect, test } from 'vitest'
import { asSent, readEventTime, type EventChoice } from './event-time.ts'

const zone = 'America/Denver'
const deviceNow = Date.parse('2026-03-05T17:02:30Z')
const read = (choice: EventChoice, word = '', offset = 0) => readEventTime(choice, word, { deviceNow, offset, zone })

describe('the time of an event apart from the time it is told', () => {
  test('now is the moment of Enter on this device', () => {
    expect(read({ how: 'now' })).toMatchObject({
      ok: true,
      time: { eventAt: '2026-03-05T17:02:30.000Z', eventFrom: 'now', sentAt: '2026-03-05T17:02:30.000Z' },
    })
  })
  test('two, five and ten minutes ago need no word', () => {
    for (const minutes of [2, 5, 10])
      expect(read({ how: 'ago', minutes })).toMatchObject({ ok: true, wantsWord: false })
    expect(read({ how: 'ago', minutes: 5 })).toMatchObject({
      time: { eventAt: '2026-03-05T16:57:30.000Z', eventFrom: 'ago' },
    })
  })
  test('at a time of day is the laboratory’s zone, typed as people type it', () => {
    for (const clock of ['9:58', '09:58', '9.58', '0958', ' 958 '])
      expect(read({ how: 'at', clock })).toMatchObject({
        ok: true,
        time: { eventAt: '2026-03-05T16:58:00.000Z', eventFrom: 'at' },
      })
  })
  test('more than ten minutes back wants a word', () => {
    expect(read({ how: 'at', clock: '9:45' })).toMatchObject({ ok: false, field: 'word', fault: 'no-word' })
    expect(read({ how: 'at', clock: '9:45' }, 'at the sink')).toMatchObject({ ok: true, time: { note: 'at the sink' } })
    expect(read({ how: 'at', clock: '9:53' })).toMatchObject({ ok: true })
  })
  test('a time of day that has not come yet is yesterday’s', () => {
    expect(read({ how: 'at', clock: '22:10' }, 'night shift')).toMatchObject({
      ok: true,
      labAt: '2026-03-05T05:10:00.000Z',
    })
  })
  test('what is no time of day is said', () => {
    expect(read({ how: 'at', clock: '' })).toMatchObject({ ok: false, fault: 'no-clock' })
    for (const clock of ['25:10', '9:75', 'noon', '9'])
      expect(read({ how: 'at', clock })).toMatchObject({ ok: false, fault: 'wrong-clock' })
  })
  test('a device whose clock is wrong tells times by its own clock, and reads a time of day by the laboratory’s', () => {
    const hourBehind = 3_600_000
    expect(read({ how: 'now' }, '', hourBehind)).toMatchObject({
      time: { eventAt: '2026-03-05T17:02:30.000Z' },
      labAt: '2026-03-05T18:02:30.000Z',
    })
    expect(read({ how: 'at', clock: '11:00' }, '', hourBehind)).toMatchObject({
      ok: true,
      time: { eventAt: '2026-03-05T17:00:00.000Z' },
      labAt: '2026-03-05T18:00:00.000Z',
    })
  })
})

test('what an instrument sent now is told from it; a time that somebody chose stays theirs', () => {
  const at = '2026-03-05T16:59:30.000Z'
  const told = (eventFrom: 'now' | 'ago') => ({ eventAt: at, eventFrom, toldAt: at, sentAt: at })
  expect(asSent(told('now'), true).eventFrom).toBe('instrument')
  expect(asSent(told('now'), false).eventFrom).toBe('now')
  expect(asSent(told('ago'), true).eventFrom).toBe('ago')
})
