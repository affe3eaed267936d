import { describe, expect, it } from 'vitest'
import { tellTime } from './told-time.ts'

const received = new Date('2026-03-05T14:40:00.000Z')
const told = (at: string, sentAt: string) => tellTime({ eventAt: at, eventFrom: 'now', toldAt: at, sentAt }, received)

describe('when something happened, as a device told it', () => {
  it('is put right by what the device’s clock was off at sending', () => {
    // Told at 14:35 true time, sent at 14:40, by a clock two hours ahead all the time.
    const { offsetMs, effectiveAt } = told('2026-03-05T16:35:00.000Z', '2026-03-05T16:40:00.000Z')
    expect(offsetMs).toBe(-2 * 3_600_000)
    expect(effectiveAt.toISOString()).toBe('2026-03-05T14:35:00.000Z')
  })

  it('is no later than when it came, where the clock was set back in between, and is not refused for it', () => {
    const { offsetMs, effectiveAt, sentAt } = told('2026-03-05T16:35:00.000Z', '2026-03-05T14:40:00.000Z')
    expect(sentAt.toISOString()).toBe('2026-03-05T14:40:00.000Z')
    expect(effectiveAt).toEqual(received)
    // Far beyond the minute from which on a window says that it was judged by a device's clock.
    expect(offsetMs).toBe(-115 * 60_000)
  })

  it('is refused in the future when it was told as the future', () => {
    const sentAt = '2026-03-05T14:40:00.000Z'
    const ahead = { eventAt: '2026-03-05T15:40:00.000Z', eventFrom: 'at' as const, toldAt: sentAt, sentAt }
    expect(() => tellTime(ahead, received)).toThrow('lies in the future')
  })
})
