import { isStoredRecord, storedRecord } from '../stored-record.ts'

/** Where the main button of a bench screen stands. */
export const hands = ['left', 'middle', 'right'] as const
export type Hand = (typeof hands)[number]

/** Minutes before a window closes at which a device may warn. Our own choice, no source. */
export const firstMinutes = [2, 3, 5, 10, 15, 30] as const
export const lastMinutes = [1, 2, 3, 5] as const

/** What one device is set to. It is the device's and not a person's: whoever takes the tablet finds it as it was. */
export type TabletSettings = {
  readonly sound: boolean
  readonly vibration: boolean
  /** Minutes before a window closes: of the first warning, and of the last, which is the smaller. */
  readonly warnings: { readonly first: number; readonly last: number }
  readonly hand: Hand
  /** A weight that the balance sends at a press of its key is stored without another key here. */
  readonly storeSent: boolean
  /** Says aloud what was stored, at a rack. */
  readonly speech: boolean
  /** A rack is weighed in the order of its list, without codes. */
  readonly inOrder: boolean
}

/** Five minutes are enough to walk to the bath and take a specimen out, one is enough to hurry. Our own choice, no source. */
export const usualSettings: TabletSettings = {
  sound: true,
  vibration: true,
  warnings: { first: 5, last: 1 },
  hand: 'middle',
  storeSent: false,
  speech: false,
  inOrder: false,
}

/** Reads what is kept on the device; whatever of it is missing or broken is as usual. */
export function parseTabletSettings(stored: string | null): TabletSettings {
  const kept = storedRecord(stored)
  const warnings = isStoredRecord(kept.warnings) ? kept.warnings : {}
  return {
    sound: typeof kept.sound === 'boolean' ? kept.sound : usualSettings.sound,
    vibration: typeof kept.vibration === 'boolean' ? kept.vibration : usualSettings.vibration,
    warnings: warningsOf(warnings.first, warnings.last),
    hand: hands.find((hand) => hand === kept.hand) ?? usualSettings.hand,
    storeSent: kept.storeSent === true,
    speech: kept.speech === true,
    inOrder: kept.inOrder === true,
  }
}

/** Two warnings that are two: where the last would not come after the first, both are as usual. */
function warningsOf(first: unknown, last: unknown): TabletSettings['warnings'] {
  const known = firstMinutes.some((minutes) => minutes === first) && lastMinutes.some((minutes) => minutes === last)
  return known && (last as number) < (first as number)
    ? { first: first as number, last: last as number }
    : usualSettings.warnings
}
