import type { Hand } from './tablet-settings.ts'

/** Where main buttons stand in their row. */
export function justifyOf(hand: Hand): 'flex-start' | 'center' | 'flex-end' {
  return hand === 'left' ? 'flex-start' : hand === 'right' ? 'flex-end' : 'center'
}
