'use client'

import type { CalculationLine } from '@curebook/trade/procedure/calculation'
import { createContext, useContext } from 'react'

export type CalculationLink = { readonly href: string; readonly label: string }
export type LinkOfInput = (input: NonNullable<CalculationLine['input']>) => CalculationLink | undefined

/** Where the inputs of a calculation are to be seen: set by whoever knows the specimens behind the ids. */
export const CalculationLinks = createContext<LinkOfInput | null>(null)

export function useCalculationLinks(): LinkOfInput | null {
  return useContext(CalculationLinks)
}
