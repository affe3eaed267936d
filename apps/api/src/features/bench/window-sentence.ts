import type { JudgedWindow } from '@curebook/trade/procedure/windows'
import { spanWords } from '#platform/span-words'

/** "12-1 (7KD2): 1-hour soak, 4 min too late." */
export function missedWindowSentence(
  test: { readonly label: string; readonly code: string },
  window: Pick<JudgedWindow, 'label' | 'state' | 'marginSeconds'>,
): string {
  const when = window.state === 'early' ? 'too early' : 'too late'
  return `${test.label} (${test.code}): ${window.label}, ${spanWords(Math.abs(window.marginSeconds ?? 0))} ${when}.`
}
