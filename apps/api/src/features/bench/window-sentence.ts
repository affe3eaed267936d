import type { JudgedWindow } from '@curebook/trade/procedure/windows'

/** "12-1 (7KD2): 1-hour soak, 4 min too late." */
export function missedWindowSentence(
  test: { readonly label: string; readonly code: string },
  window: Pick<JudgedWindow, 'label' | 'state' | 'marginSeconds'>,
): string {
  const when = window.state === 'early' ? 'too early' : 'too late'
  return `${test.label} (${test.code}): ${window.label}, ${spanWords(Math.abs(window.marginSeconds ?? 0))} ${when}.`
}

/** A span as people say it; minutes are rounded up, so that a miss never reads as 0 min. */
export function spanWords(seconds: number): string {
  if (seconds < 60) return `${seconds} s`
  const minutes = Math.ceil(seconds / 60)
  if (minutes < 90) return `${minutes} min`
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`
}
