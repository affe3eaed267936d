/** How a time is shown: `long` has the weekday and the year, `day` no time, `near` neither time nor year, `clock` only the time of day, `week` that with its weekday. */
export type TimeStyle = 'long' | 'short' | 'day' | 'clock' | 'full' | 'weekday' | 'week' | 'near'

const parts: Record<TimeStyle, Intl.DateTimeFormatOptions> = {
  full: {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
    hourCycle: 'h23',
    timeZoneName: 'longOffset',
  },
  long: {
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  },
  short: { weekday: 'short', day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit', hourCycle: 'h23' },
  day: { weekday: 'short', day: 'numeric', month: 'short', year: 'numeric' },
  near: { weekday: 'short', day: 'numeric', month: 'short' },
  clock: { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' },
  weekday: { weekday: 'long', day: 'numeric', month: 'long' },
  week: { weekday: 'short', hour: '2-digit', minute: '2-digit', hourCycle: 'h23' },
}
/** The English of a laboratory puts the day before the month: never 03/05/26. */
const regionOf: Readonly<Record<string, string>> = { en: 'en-GB' }
const formats = new Map<string, Intl.DateTimeFormat>()

/** An instant in the laboratory's zone: `Thu 5 Mar 2026, 14:32`. */
export function formatInstant(iso: string, style: TimeStyle, zone: string, language = 'en'): string {
  const key = `${style} ${zone} ${language}`
  const format =
    formats.get(key) ?? new Intl.DateTimeFormat(regionOf[language] ?? language, { ...parts[style], timeZone: zone })
  formats.set(key, format)
  // A narrow break is missing from our fonts, and the comma after a weekday is noise in a row.
  return format
    .format(new Date(iso))
    .replaceAll('\u202f', ' ')
    .replace(/^(\p{L}+),/u, '$1')
    .replace('Sept', 'Sep')
}

/** A calendar day (`2026-03-05`) as it stands, whatever the reader's zone. */
export function formatDay(day: string, language = 'en', style: 'day' | 'near' = 'day'): string {
  return formatInstant(`${day}T12:00:00Z`, style, 'UTC', language)
}

/** The instant at which clocks in `zone` show this day and time of day; the earlier one when clocks are set back. */
export function instantAt(day: string, clock: string, zone: string): string {
  const wanted = Date.parse(`${day}T${clock.length === 5 ? `${clock}:00` : clock}Z`)
  const shown = (at: number) => {
    const text = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'medium' }).format(
      at,
    )
    return Date.parse(`${text.replace(' ', 'T')}Z`)
  }
  const offsets = [
    shown(wanted - 86_400_000) - (wanted - 86_400_000),
    shown(wanted + 86_400_000) - (wanted + 86_400_000),
  ]
  const fits = offsets.map((offset) => wanted - offset).filter((at) => shown(at) === wanted)
  return new Date(fits.length > 0 ? Math.min(...fits) : wanted - (offsets[0] ?? 0)).toISOString()
}

/** The calendar day in `zone`, `2026-03-05`. */
export function dayOf(iso: string, zone: string): string {
  return new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short' }).format(new Date(iso))
}

/** `04:10` under an hour, `2 h 05 min` under two days, `5 d 3 h` beyond. Whole, cut towards zero. */
export function formatSpan(milliseconds: number): string {
  const seconds = Math.floor(Math.abs(milliseconds) / 1000)
  const two = (value: number) => String(value).padStart(2, '0')
  const minutes = Math.floor(seconds / 60)
  if (minutes < 60) return `${two(minutes)}:${two(seconds % 60)}`
  const hours = Math.floor(minutes / 60)
  if (hours < 48) return `${hours} h ${two(minutes % 60)} min`
  return `${Math.floor(hours / 24)} d ${hours % 24} h`
}
