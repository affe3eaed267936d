import { checkReading } from '@curebook/trade/procedure/reading-check'
import { loadReadings } from '@curebook/trade/procedure/load-reading'

/**
 * Why what was typed for a load cannot be kept, as the server would say it; undefined where it can. Asked before it goes on
 * the device: without a network it would come back much later.
 */
export function loadReadingFault(key: keyof typeof loadReadings, typed: string): string | undefined {
  const checked = checkReading(loadReadings[key], typed)
  return checked.ok ? undefined : checked.message
}
