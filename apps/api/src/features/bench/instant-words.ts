const formats = new Map<string, Intl.DateTimeFormat>()

/** An instant as a sentence of the record says it, by the laboratory's wall clock: "Sun 8 Mar 22:10". */
export function instantWords(zone: string, at: string): string {
  const format =
    formats.get(zone) ??
    new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      weekday: 'short',
      day: 'numeric',
      month: 'short',
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
    })
  formats.set(zone, format)
  const parts = format.formatToParts(new Date(at))
  const part = (type: string) => parts.find((one) => one.type === type)!.value
  return `${part('weekday')} ${part('day')} ${part('month')} ${part('hour')}:${part('minute')}`
}
