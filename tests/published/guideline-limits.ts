import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import type { Limit } from '@curebook/trade/specification/specification'

/** The built-in limit of a guideline, for comparing with what others printed. */
export function limitOf(guideline: string, key: string): Limit {
  const limit = builtInSpecifications.find((each) => each.key === guideline)?.limits.find((each) => each.key === key)
  if (!limit) throw new Error(`${guideline} holds no limit ${key}.`)
  return limit
}

/** What a limit says another document prints. */
export function alsoPublishedIn(guideline: string, key: string, source: string) {
  const found = limitOf(guideline, key).alsoPublished.find((each) => each.source === source)
  return found && { value: found.value, unit: found.unit }
}

/** Edges of a built-in gradation, % passing, by the sieve's opening in mm. */
export function edgesOf(guideline: string, type: string): Readonly<Record<string, string>> {
  const band = builtInSpecifications.find((each) => each.key === guideline)?.gradationBands?.[type]
  if (!band) throw new Error(`${guideline} holds no gradation of ${type}.`)
  return Object.fromEntries(band.sieves.map(({ size, from, to }) => [size, from === to ? from : `${from}-${to}`]))
}
