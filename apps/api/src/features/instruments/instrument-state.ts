import { dayIn } from '#platform/laboratory-day'

/** Days before the end of a calibration from which an instrument counts as due; common practice, no source. */
export const dueWithinDays = 30

/**
 * Whether an instrument may be used: taken out of service, or its latest calibration failed → `out`; that calibration ends
 * within 30 days or has ended → `due`. An instrument without any calibration on record stays as it was set.
 * @param calibrations in the order in which they were done
 */
export function instrumentState(
  set: string,
  calibrations: readonly { validUntil: string; passed: boolean }[],
  today: string,
): 'in-service' | 'due' | 'out' {
  const latest = calibrations.at(-1)
  if (set === 'out' || latest?.passed === false) return 'out'
  return latest && latest.validUntil <= dayAfter(today, dueWithinDays) ? 'due' : 'in-service'
}

function dayAfter(day: string, days: number): string {
  return dayIn('UTC', new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000))
}
