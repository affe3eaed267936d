import type { MethodDeclaration } from '../procedure/declaration.ts'
import { unitOfSpelling, type Unit, units } from '../quantity/unit-table.ts'
import { convertDigits } from '../quantity/digit-conversion.ts'
import type { Limit } from './specification.ts'

/** The methods whose results answer a limit, in the order given. */
export function answering<M extends Pick<MethodDeclaration, 'answers'>>(
  limit: Pick<Limit, 'property' | 'soak'>,
  methods: readonly M[],
): readonly { readonly method: M; readonly result: string; readonly passes: readonly string[] }[] {
  return methods.flatMap((method) => {
    const answer = method.answers.find(
      ({ property, soak }) => property === limit.property && (soak ?? null) === limit.soak,
    )
    return answer ? [{ method, result: answer.result, passes: answer.passes ?? [] }] : []
  })
}

/**
 * Whether a result may be typed for a property: no series here finds it at every content. What one test at one content
 * finds may as well have been found elsewhere.
 */
export function isEntered(
  limit: Pick<Limit, 'property' | 'soak'>,
  methods: readonly Pick<MethodDeclaration, 'answers' | 'place'>[],
): boolean {
  return !answering(limit, methods).some(({ method }) => method.place === 'series')
}

/** Units in which a result may be typed: the limit's own first, and those that convert into it exactly. */
export function unitsFor(limitUnit: string): readonly string[] {
  const own = unitOfSpelling(limitUnit)
  // A mass per area depends on the pair that was published: it is never converted.
  if (!own || units[own].dimension === 'mass per area') return [limitUnit]
  const others = (Object.keys(units) as Unit[]).filter(
    (unit) => unit !== own && units[unit].dimension === units[own].dimension,
  )
  return [limitUnit, ...others]
}

/** A value in the limit's own unit; undefined where its unit does not convert. */
export function inLimitUnit(digits: string, unit: string, limitUnit: string): string | undefined {
  if (unit === limitUnit) return digits
  const [from, to] = [unitOfSpelling(unit), unitOfSpelling(limitUnit)]
  return from && to && unitsFor(limitUnit).includes(unit) ? convertDigits(digits, from, to) : undefined
}
