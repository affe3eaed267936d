'use client'

import type { BuiltInSpecification } from '@curebook/contract/specifications'
import { useSearchParam } from '#lib/search-param.ts'
import { namedVariant } from './adoption-form.ts'

export type VariantChosen = NonNullable<ReturnType<typeof useVariantChoice>>

/** Guideline, aggregate type and traffic as the address names them; what it does not name is the first that is held. */
export function useVariantChoice(items: readonly BuiltInSpecification[]) {
  const [from, setFrom] = useSearchParam('from')
  const [type, setType] = useSearchParam('type')
  const [traffic, setTraffic] = useSearchParam('traffic')
  const builtIn = items.find(({ key }) => key === from) ?? items[0]
  if (builtIn === undefined) return undefined
  const variant = namedVariant(builtIn, { type, traffic })
  return variant === undefined ? undefined : { builtIn, variant, setFrom, setType, setTraffic }
}
