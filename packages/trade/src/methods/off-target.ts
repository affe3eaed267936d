import type { EditionParameters, ObservedReading } from '../procedure/declaration.ts'
import { parameterOf } from '../procedure/evaluation.ts'
import { decimal } from '../quantity/decimal.ts'

/**
 * A sentence when a reading lies outside target ± tolerance of the edition (`key` and `key-tolerance`), in the unit of the
 * parameter; none when it lies inside, on an end, or was not taken. The reading is used all the same. `shown`: how a computed
 * value is said where it has more digits than a reading.
 * @throws MethodInputError `missing-setup` when the edition lacks one of the two
 */
export function offTarget(
  what: string,
  reading: (Pick<ObservedReading, 'value'> & { readonly shown?: string }) | undefined,
  parameters: EditionParameters,
  key: string,
): readonly string[] {
  if (!reading) return []
  const target = parameterOf({ parameters }, key)
  const tolerance = parameterOf({ parameters }, `${key}-tolerance`)
  if (decimal(reading.value).minus(target.value).abs().lte(tolerance.value)) return []
  return [
    `${what} ${reading.shown ?? reading.value} ${target.unit}, where ${target.value} ± ${tolerance.value} ${target.unit} is asked for.`,
  ]
}
