import type { BuiltInSpecification, Limit } from '@curebook/contract/specifications'
import { typedDigits } from '#lib/typed-digits.ts'

export type Variant = BuiltInSpecification['variants'][number]

/** What an address names of a guideline; each part that it does not name, or that is not held, is the first one held. */
export function namedVariant(
  builtIn: BuiltInSpecification,
  named: { readonly type: string; readonly traffic: string },
): Variant | undefined {
  const type = builtIn.aggregateTypes.find((one) => one === named.type) ?? builtIn.aggregateTypes[0]
  const traffic = builtIn.traffics.find((one) => one === named.traffic) ?? builtIn.traffics[0]
  return builtIn.variants.find((variant) => variant.aggregateType === type && variant.traffic === traffic)
}

/** The unit in which a contract may print the same limit instead: results are then computed in it, never converted. */
const otherUnits: Readonly<Record<string, string>> = {
  'g/m²': 'g/ft²',
  'g/ft²': 'g/m²',
  'kg·cm': 'N·m',
  'N·m': 'kg·cm',
}
export function unitsOf(unit: string): readonly string[] {
  const other = otherUnits[unit]
  return other === undefined ? [unit] : [unit, other]
}

/** Where a change stands in the body, and so what its fields and their errors are named. */
export function changePath(index: number, field?: 'value' | 'upper' | 'unit' | 'none' | 'reason'): string {
  return ['changes', index, field].filter((part) => part !== undefined).join('.')
}

/**
 * The adoption form as the contract wants it. Fields of a change are named as the server names them in its errors:
 * `changes.0.value`, `changes.0.unit`, `changes.0.none`, `changes.0.reason`, in the order of `changed`.
 */
export function readAdoption(
  form: FormData,
  given: {
    readonly id: string
    readonly builtInKey: string
    readonly aggregateType: string
    readonly traffic: string
    readonly changed: readonly Limit[]
    readonly bandChanged: boolean
    /** The contract whose copy it is; undefined for every project. */
    readonly projectId?: string
  },
) {
  const { changed, bandChanged, ...head } = given
  const text = (name: string) => String(form.get(name) ?? '').trim()
  const edge = (name: string) => (text(name) === '' ? null : typedDigits(text(name), '% of dry aggregate'))
  const rounding = text('rounding')
  return {
    ...head,
    name: text('name'),
    changes: changed.map((limit, index) => {
      const unit = text(changePath(index, 'unit')) || limit.unit
      return {
        limitKey: limit.key,
        value: form.has(changePath(index, 'none')) ? null : typedDigits(form.get(changePath(index, 'value')), unit),
        ...(limit.sense === 'between' && !form.has(changePath(index, 'none'))
          ? { upper: typedDigits(form.get(changePath(index, 'upper')), unit) }
          : {}),
        ...(unit === limit.unit ? {} : { unit }),
        reason: text(changePath(index, 'reason')),
      }
    }),
    ...(bandChanged
      ? {
          residualBand: {
            from: edge('residualBand.from'),
            to: edge('residualBand.to'),
            reason: text('residualBand.reason'),
          },
        }
      : {}),
    ...(rounding === '' || rounding === 'none' ? {} : { rounding }),
  }
}
