import type { EventTime } from '@curebook/contract/common'
import { instantAt } from '#lib/laboratory-time.ts'

/** A time of day as written on paper: "11:22", "11.22", "1122"; undefined for what is none. */
export function readClock(typed: string): string | undefined {
  const parts = /^\s*(\d{1,2})\s*[:.h]?\s*(\d{2})\s*$/.exec(typed)
  if (parts === null || Number(parts[1]) > 23 || Number(parts[2]) > 59) return undefined
  return `${(parts[1] ?? '').padStart(2, '0')}:${parts[2]}`
}

/**
 * When something on paper happened, on that day by the laboratory's clocks. It is sent by the device's clock, which the
 * server puts right: `offset` is what the laboratory's clock is ahead of it, in ms.
 */
export function paperTime(
  day: string,
  clock: string,
  { zone, deviceNow, offset }: { readonly zone: string; readonly deviceNow: number; readonly offset: number },
): EventTime {
  const told = new Date(deviceNow).toISOString()
  const eventAt = new Date(Date.parse(instantAt(day, clock, zone)) - offset).toISOString()
  return { eventAt, eventFrom: 'paper', toldAt: told, sentAt: told }
}
