'use client'

import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import type { TimeStyle } from '#lib/laboratory-time.ts'

/** An instant in the laboratory's zone; the full time with its offset on hover, in print and for machines. */
export function TimeText({ at, look = 'long' }: { at: string; look?: Exclude<TimeStyle, 'full'> }) {
  const format = useLaboratoryFormat()
  return (
    <time dateTime={at} title={`${format.instant(at, 'full')} (${format.zone})`} className="nowrap">
      {format.instant(at, look)}
    </time>
  )
}

/** A calendar day with its weekday. */
export function DayText({ day }: { day: string }) {
  const format = useLaboratoryFormat()
  return (
    <time dateTime={day} className="nowrap">
      {format.day(day)}
    </time>
  )
}
