'use client'

import { useLaboratoryFormat } from '#lib/laboratory-format.ts'

/**
 * A measured or computed value: the laboratory's decimal sign, figures of one width, never grouped. Without `decimals` it
 * stands exactly as typed; with them it is cut for the eye only, and the full digits are in the title.
 */
export function QuantityText({ digits, unit, decimals }: { digits: string; unit?: string | null; decimals?: number }) {
  const format = useLaboratoryFormat()
  const shown = format.quantity(digits, unit ?? undefined, decimals)
  const full = format.quantity(digits, unit ?? undefined)
  return (
    <span className="reading nowrap" title={shown === full ? undefined : full}>
      {shown}
    </span>
  )
}
