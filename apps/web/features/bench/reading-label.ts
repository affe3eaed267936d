'use client'

import { isUnit, units } from '@curebook/trade/quantity/unit-table'
import { useWords } from '#lib/words.ts'
import type { ReadingSlot } from './reading-slots.ts'

/** "Mass of 12-1 (7KD2), in grams (2 of 3)": the unit is in the label, since a reader skips what stands behind a field. */
export function useReadingLabel({ declaration, repeat }: ReadingSlot, of = ''): string {
  const words = useWords()
  const { label, unit = '', repeats = 1 } = declaration
  const unitWords = isUnit(unit) && unit !== 'count' ? units[unit].words : ''
  return words('bench.reading.label', {
    label,
    of,
    hasOf: of === '' ? 'no' : 'yes',
    unit: unitWords,
    hasUnit: unitWords === '' ? 'no' : 'yes',
    repeat,
    repeats,
    many: repeats > 1 ? 'yes' : 'no',
  })
}
