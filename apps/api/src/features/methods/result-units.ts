import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { evaluateCase } from '@curebook/trade/procedure/reference-cases'
import { builtInReferenceCases } from '@curebook/trade/reference-cases/built-in'

const kept = new WeakMap<MethodDeclaration, ReadonlyMap<string, string>>()

/**
 * The unit of a result whose declaration leaves it open, as the reference cases of the method give it; undefined where none
 * gives the result, or where they give it in several units.
 */
export function unitInCases(method: MethodDeclaration, key: string): string | undefined {
  const units = kept.get(method) ?? unitsOf(method)
  kept.set(method, units)
  return units.get(key)
}

function unitsOf(method: MethodDeclaration): ReadonlyMap<string, string> {
  const found = new Map<string, Set<string>>()
  const cases = builtInReferenceCases.filter((file) => file.method === method.key).flatMap((file) => file.cases)
  for (const { key, unit } of cases.flatMap((item) => evaluateCase(method, item).results))
    found.set(key, (found.get(key) ?? new Set()).add(unit))
  return new Map([...found].flatMap(([key, units]) => (units.size === 1 ? [[key, [...units][0]!] as const] : [])))
}
