import { expect, test } from 'vitest'
import { withSendingTime } from './sending-time.ts'

const now = new Date('2026-03-05T14:40:00Z')

test('the time of sending is that of this sending; the time of the event stays', () => {
  const body = { id: 'a', time: { eventAt: '2026-03-05T14:32:00Z', eventFrom: 'now', sentAt: '2026-03-05T14:32:01Z' } }
  expect(withSendingTime(body, now)).toEqual({ id: 'a', time: { ...body.time, sentAt: '2026-03-05T14:40:00.000Z' } })
})
test('a body without such a time goes as it is', () => {
  expect(withSendingTime({ id: 'a' }, now)).toEqual({ id: 'a' })
})
