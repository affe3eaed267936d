'use client'

import { displayDigits, displayQuantity, type DecimalSign } from '@curebook/trade/quantity/display'
import { createContext, useContext, useMemo } from 'react'
import { formatDay, formatInstant, type TimeStyle } from './laboratory-time.ts'

/** How this laboratory writes: its zone, its decimal sign, its language. */
export type LaboratoryStyle = { readonly zone: string; readonly decimalSign: DecimalSign; readonly language: string }

export const LaboratoryStyleContext = createContext<LaboratoryStyle>({ zone: 'UTC', decimalSign: '.', language: 'en' })

export function useLaboratoryFormat() {
  const style = useContext(LaboratoryStyleContext)
  return useMemo(
    () => ({
      ...style,
      instant: (iso: string, look: TimeStyle = 'long') => formatInstant(iso, look, style.zone, style.language),
      day: (day: string) => formatDay(day, style.language),
      /** A day of the coming weeks, without its year. */
      nearDay: (day: string) => formatDay(day, style.language, 'near'),
      /** As typed, or cut to `decimals` for the eye only. */
      digits: (digits: string, decimals?: number) => displayDigits(digits, { sign: style.decimalSign, decimals }),
      quantity: (digits: string, unit?: string, decimals?: number) =>
        displayQuantity(digits, unit ?? '', { sign: style.decimalSign, decimals }),
    }),
    [style],
  )
}
