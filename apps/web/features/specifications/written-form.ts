import type { WrittenLimit } from '@curebook/contract/own-specifications'
import type { Specification } from '@curebook/contract/specifications'
import { typedDigits } from '#lib/typed-digits.ts'

/** A limit as its fields begin: a stored one, or an empty one. */
export type LimitStart = Pick<
  Specification['limits'][number],
  | 'key'
  | 'property'
  | 'label'
  | 'soak'
  | 'traffic'
  | 'sense'
  | 'value'
  | 'upper'
  | 'unit'
  | 'condition'
  | 'rounding'
  | 'decisionRule'
  | 'uncertainty'
  | 'source'
  | 'clause'
  | 'method'
  | 'group'
  | 'certainty'
>

export const emptyLimit: LimitStart = {
  key: '',
  property: '',
  label: '',
  soak: null,
  traffic: null,
  sense: 'max',
  value: null,
  upper: null,
  unit: '',
  condition: null,
  rounding: 'none',
  decisionRule: 'simple acceptance',
  uncertainty: null,
  source: '',
  clause: null,
  method: null,
  group: 'mix',
  certainty: 'by contract',
}

/** Those that the laboratory wrote itself and that may still be chosen: another one may begin as one of them stands. */
export function ownOnes(items: readonly Specification[]): readonly Specification[] {
  return items
    .filter(({ key, standing }) => key === 'own' && standing === 'current')
    .toSorted((a, b) => a.name.localeCompare(b.name))
}

/** Name of a field, as the server names it in its errors: `limits.0.uncertainty.expanded`. */
export const limitPath = (index: number, field: string) => ['limits', index, field].join('.')
export const sievePath = (index: number, field: string) => ['gradationBand', 'sieves', index, field].join('.')

/**
 * The form as the contract wants it. `limits` and `sieves` say how many of each it holds; fields are named by their place
 * in the body.
 */
export function readWritten(
  form: FormData,
  given: { readonly id: string; readonly limits: number; readonly sieves: number | null },
) {
  const text = (name: string) => String(form.get(name) ?? '').trim()
  const orNull = (name: string) => (text(name) === '' ? null : text(name))
  const taken = new Set(Array.from({ length: given.limits }, (_, index) => text(limitPath(index, 'key'))))
  const digits = (name: string, unit = '') => (text(name) === '' ? null : typedDigits(text(name), unit))
  return {
    id: given.id,
    name: text('name'),
    source: text('source'),
    aggregateType: text('aggregateType'),
    traffic: text('traffic'),
    residualBand: {
      from: digits('residualBand.from', '% of dry aggregate'),
      to: digits('residualBand.to', '% of dry aggregate'),
      source: text('residualBand.source'),
      certainty: text('residualBand.certainty'),
    },
    gradationBand:
      given.sieves === null
        ? null
        : {
            sieves: Array.from({ length: given.sieves }, (_, index) => ({
              size: digits(sievePath(index, 'size'), 'mm') ?? '',
              label: text(sievePath(index, 'label')),
              from: digits(sievePath(index, 'from'), '%') ?? '',
              to: digits(sievePath(index, 'to'), '%') ?? '',
              tolerance: digits(sievePath(index, 'tolerance'), '%'),
            })),
            source: text('gradationBand.source'),
            clause: orNull('gradationBand.clause'),
            certainty: text('gradationBand.certainty'),
          },
    limits: Array.from({ length: given.limits }, (_, index) => {
      const at = (field: string) => limitPath(index, field)
      const unit = text(at('unit'))
      const property = propertyOf(text(at('property')))
      const soak = orNull(at('soak'))
      const sense = text(at('sense'))
      return {
        key: text(at('key')) || keyOf(property, soak, index, taken),
        property,
        label: text(at('label')),
        soak,
        traffic: orNull(at('traffic')) as WrittenLimit['traffic'],
        sense,
        // Fields of another sense are hidden, and what was typed into them says nothing.
        value: sense === 'declared' ? null : digits(at('value'), unit),
        upper: sense === 'between' ? digits(at('upper'), unit) : null,
        unit,
        condition: orNull(at('condition')),
        rounding: text(at('rounding')),
        decisionRule: text(at('decisionRule')),
        uncertainty:
          text(at('decisionRule')) === 'simple acceptance'
            ? null
            : {
                expanded: digits(at('uncertainty.expanded'), unit) ?? '',
                coverageFactor: digits(at('uncertainty.coverageFactor')) ?? '',
                source: text(at('uncertainty.source')),
              },
        source: text(at('source')),
        clause: orNull(at('clause')),
        method: orNull(at('method')),
        group: text(at('group')),
        certainty: text(at('certainty')),
      }
    }),
  }
}

/**
 * The key of a new limit, which nobody sees: another one than all of the list have, so that what is wrong with a property is
 * told at the property. Adds it to `taken`.
 */
function keyOf(property: string, soak: string | null, index: number, taken: Set<string>): string {
  const named = property === '' ? `limit-${index + 1}` : propertyOf([property, soak ?? ''].join(' '))
  // The contract takes 80 signs; the rest is room for a number.
  const short = named.slice(0, 72).replace(/-$/, '')
  let key = short
  for (let number = 2; taken.has(key); number += 1) key = `${short}-${number}`
  taken.add(key)
  return key
}

/** “Mix time” is the property `mix-time`: small letters and digits, parted by dashes. */
function propertyOf(typed: string): string {
  return typed
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
}
