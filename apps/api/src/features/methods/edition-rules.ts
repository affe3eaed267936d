import type { CreateEdition } from '@curebook/contract/methods'
import type { FieldError } from '@curebook/contract/problem'
import type { EditionParameter, EditionParameters, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { durationOf } from '@curebook/trade/procedure/windows'
import { decimal } from '@curebook/trade/quantity/decimal'

type Dated = { readonly origin: string; readonly effectiveFrom: string; readonly at: string; readonly revision: number }

/**
 * The edition that tests made on a day are pinned to: the laboratory's own newest one in effect, and only without one the
 * newest built-in. A later version of the product never replaces what a laboratory decided. Of two from one day the one that
 * was made later stands: they may be copies of two editions, whose revisions are counted apart.
 */
export function inForceOn<E extends Dated>(editions: readonly E[], day: string): E | undefined {
  const rank = ({ origin, effectiveFrom, at, revision }: Dated) =>
    [origin === 'laboratory' ? 1 : 0, effectiveFrom, at, revision] as const
  return editions
    .filter(({ effectiveFrom }) => effectiveFrom <= day)
    .toSorted((a, b) => compare(rank(b), rank(a)))
    .at(0)
}

/** A copy of the parameters with the changed bounds, each with its own source and certainty. */
export function changedParameters(parameters: EditionParameters, changes: CreateEdition['changes']): EditionParameters {
  const changed = changes.flatMap(({ parameter, value, source, certainty }): [string, EditionParameter][] => {
    const before = parameters[parameter]
    if (!before) return []
    // The clause belonged to the earlier source.
    const { clause: _, ...rest } = before
    return [[parameter, { ...rest, value, source, certainty }]]
  })
  return { ...parameters, ...Object.fromEntries(changed) }
}

/** What cannot stand among the changes: unknown or doubled bounds, less than nothing, a window that closes before it opens. */
export function faultsOfChanges(
  method: MethodDeclaration,
  parameters: EditionParameters,
  changes: CreateEdition['changes'],
): FieldError[] {
  const after = changedParameters(parameters, changes)
  return changes.flatMap(({ parameter, value }, index): FieldError[] => {
    const before = parameters[parameter]
    if (!before)
      return [
        {
          path: `changes.${index}.parameter`,
          message: `The edition holds no bound “${parameter}”: choose one of its list.`,
        },
      ]
    if (changes.findIndex((other) => other.parameter === parameter) < index)
      return [{ path: `changes.${index}.parameter`, message: `“${before.label}” stands twice: keep one of the two.` }]
    if (decimal(value).lt(0) && before.unit !== '°C')
      return [{ path: `changes.${index}.value`, message: `“${before.label}” cannot be less than 0 ${before.unit}.` }]
    const window = method.windows.find(
      ({ earliestParameter, latestParameter }) =>
        earliestParameter !== undefined &&
        latestParameter !== undefined &&
        [earliestParameter, latestParameter].includes(parameter) &&
        durationOf(after, earliestParameter) > durationOf(after, latestParameter),
    )
    return window
      ? [
          {
            path: `changes.${index}.value`,
            message: `“${window.label}” would close before it opens: the earliest must not be later than the latest.`,
          },
        ]
      : []
  })
}

function compare(a: readonly (string | number)[], b: readonly (string | number)[]): number {
  const at = a.findIndex((part, index) => part !== b[index])
  return at < 0 ? 0 : a[at]! < b[at]! ? -1 : 1
}
