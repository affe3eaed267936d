import type { BuiltInSpecification } from '@curebook/contract/specifications'
import { emptyLimit, type LimitStart } from './written-form.ts'

/** A property that a test here or a built-in specification knows, as a new limit of it begins. */
export type KnownProperty = { readonly key: string; readonly start: LimitStart }

/**
 * What may be asked for, by its name: every property of the built-in specifications once, with the unit, the test and the
 * sense that most of them give it, and without their numbers.
 */
export function knownProperties(builtIn: readonly BuiltInSpecification[]): readonly KnownProperty[] {
  const limits = builtIn.flatMap(({ variants }) => variants.flatMap((variant) => variant.limits))
  const keyOf = (limit: Pick<LimitStart, 'property' | 'soak'>) => `${limit.property} ${limit.soak ?? ''}`.trim()
  return [...new Set(limits.map(keyOf))]
    .flatMap((key) => {
      const own = limits.filter((limit) => keyOf(limit) === key)
      const most = (field: 'unit' | 'method' | 'group' | 'sense' | 'label') =>
        mostFrequent(own.map((one) => one[field]))
      const [first] = own
      if (first === undefined) return []
      const start = {
        ...emptyLimit,
        ...{
          property: first.property,
          soak: first.soak,
          label: most('label') ?? '',
          unit: most('unit') ?? '',
          method: most('method'),
        },
        ...{ group: most('group'), sense: most('sense') },
      } as LimitStart
      return [{ key, start }]
    })
    .sort((one, other) => one.start.label.localeCompare(other.start.label))
}

function mostFrequent<Value>(values: readonly Value[]): Value | undefined {
  const count = (value: Value) => values.filter((other) => other === value).length
  return values.toSorted((one, other) => count(other) - count(one))[0]
}
