/** A calibration that stands, days as `2026-03-05`. */
export type CalibrationSpan = { readonly doneOn: string; readonly validUntil: string; readonly passed: boolean }

/**
 * Why a reading with this instrument on a day does not count by itself, in a sentence; null when it does. A laboratory that
 * has recorded calibrations of an instrument is bound by them; one that has recorded none is told so at review, not stopped.
 * @param calibrations in the order in which they were done
 */
export function calibrationFault(
  code: string,
  state: string,
  calibrations: readonly CalibrationSpan[],
  day: string,
): string | null {
  if (state === 'out') return `${code} is out of service.`
  if (calibrations.length === 0) return null
  const latest = calibrations.filter(({ doneOn }) => doneOn <= day).at(-1)
  if (!latest) return `${code} was not calibrated yet on ${day}.`
  if (!latest.passed) return `${code} failed its calibration of ${latest.doneOn}.`
  return latest.validUntil < day
    ? `The calibration of ${code} ended on ${latest.validUntil}; it was used on ${day}.`
    : null
}
