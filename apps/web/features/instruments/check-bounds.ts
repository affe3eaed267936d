'use client'

import type { CheckBounds } from '@curebook/contract/instrument-checks'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'

/** "125 ± 1 lb (source)": within what a check passes, and where that stands. */
export function useBoundsText(): (bounds: CheckBounds) => string {
  const words = useWords()
  const format = useLaboratoryFormat()
  return ({ nominal, tolerance, unit, source }) =>
    words('instruments.boundsText', {
      nominal: format.digits(nominal),
      tolerance: format.quantity(tolerance, unit),
      source,
    })
}
