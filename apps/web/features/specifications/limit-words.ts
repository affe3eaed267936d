'use client'

import type { Limit } from '@curebook/contract/specifications'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'

/** A limit in words, with the laboratory's decimal sign: "at most 538 g/m²", "40 to 90 dmm", "declared, no limit". */
export function useLimitWords() {
  const words = useWords()
  const { digits, quantity } = useLaboratoryFormat()
  return ({ sense, value, upper, unit }: Pick<Limit, 'sense' | 'value' | 'upper' | 'unit'>): string => {
    // A ratio has no unit.
    const told = (held: string) => (unit === '1' ? digits(held) : quantity(held, unit))
    if (sense === 'declared') return words('specifications.declared')
    if (value === null || (sense === 'between' && upper === null)) return words('specifications.noLimit')
    if (sense === 'between') return words('specifications.span', { from: digits(value), to: told(upper ?? '') })
    return words(`specifications.sense.${sense}`, { value: told(value) })
  }
}
