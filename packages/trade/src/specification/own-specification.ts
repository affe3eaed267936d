import { decimal } from '../quantity/decimal.ts'
import { isNumber } from './adopt.ts'
import { endsOf } from './limit-decision.ts'
import type { BandSieve, GradationBand, Limit, ResidualBand, Specification } from './specification.ts'

/** A limit as a laboratory writes it. */
export type WrittenLimit = Pick<
  Limit,
  | 'key'
  | 'property'
  | 'label'
  | 'soak'
  | 'traffic'
  | 'sense'
  | 'value'
  | 'unit'
  | 'rounding'
  | 'decisionRule'
  | 'source'
  | 'certainty'
  | 'condition'
> & {
  readonly upper: string | null
  readonly uncertainty: Limit['uncertainty'] | null
  readonly clause: string | null
  readonly method: string | null
  readonly group: NonNullable<Limit['group']>
}
export type WrittenSpecification = {
  readonly residualBand: Pick<ResidualBand, 'from' | 'to' | 'source' | 'certainty'>
  readonly gradationBand: Pick<GradationBand, 'sieves' | 'source' | 'certainty'> | null
  readonly limits: readonly WrittenLimit[]
}
export type WrittenFault = { readonly path: string; readonly sentence: string }

/** What cannot stand in a specification that a laboratory writes, each with its place. */
export function faultsOfWritten({
  residualBand,
  gradationBand,
  limits,
}: WrittenSpecification): readonly WrittenFault[] {
  const twice = limits.flatMap(({ key, property, soak }, index) => {
    const earlier = limits.slice(0, index)
    if (earlier.some((each) => each.key === key))
      return [{ path: `limits.${index}.key`, sentence: 'Another limit of this list has this key.' }]
    return earlier.some((each) => each.property === property && each.soak === soak)
      ? [
          {
            path: `limits.${index}.property`,
            sentence: 'This property is in the list already: a property has one limit for each soak.',
          },
        ]
      : []
  })
  return [
    ...faultsOfBand(residualBand),
    ...limits.flatMap((limit, index) => faultsOfLimit(limit, `limits.${index}`)),
    ...twice,
    ...(gradationBand ? gradationBand.sieves.flatMap((sieve, n, all) => faultsOfSieve(sieve, all[n - 1], n)) : []),
  ]
}

/**
 * A number that was changed does not keep the name of a document that holds another one: what a copy of built-in values says
 * is published or remembered needs the source of the new number.
 */
export function faultsOfKeptSources(
  before: Pick<Specification, 'limits'>,
  limits: readonly WrittenLimit[],
): readonly WrittenFault[] {
  return limits.flatMap((limit, index) => {
    const old = before.limits.find(({ key }) => key === limit.key)
    if (!old || old.certainty === 'by contract') return []
    const isOther = old.value !== limit.value || (old.upper ?? null) !== limit.upper || old.unit !== limit.unit
    const keeps =
      old.source === limit.source && (old.clause ?? null) === limit.clause && old.certainty === limit.certainty
    return isOther && keeps
      ? [
          {
            path: `limits.${index}.source`,
            sentence: 'The number is another one now: name the document that asks for it.',
          },
        ]
      : []
  })
}

function faultsOfBand({ from, to }: WrittenSpecification['residualBand']): WrittenFault[] {
  const path = (end: string) => `residualBand.${end}`
  const wrong = Object.entries({ from, to }).filter(([, edge]) => edge !== null && !isNumber(edge))
  if (wrong.length > 0)
    return wrong.map(([end]) => ({ path: path(end), sentence: 'An edge of the band must be a number, like 5.5.' }))
  if (from !== null && to !== null && decimal(from).gte(to))
    return [{ path: path('to'), sentence: 'The band must begin below where it ends.' }]
  return []
}

function faultsOfLimit(limit: WrittenLimit, at: string): WrittenFault[] {
  const { sense, value, upper, decisionRule, uncertainty } = limit
  const say = (path: string, sentence: string) => [{ path: `${at}.${path}`, sentence }]
  if (sense === 'declared' && (value !== null || upper !== null))
    return say('value', 'What is declared has no limit: leave the number out, or choose another sense.')
  const numbers = {
    value,
    upper,
    'uncertainty.expanded': uncertainty?.expanded ?? null,
    'uncertainty.coverageFactor': uncertainty?.coverageFactor ?? null,
  }
  const wrong = Object.entries(numbers).filter(([, digits]) => digits !== null && !isNumber(digits))
  if (wrong.length > 0) return wrong.flatMap(([path]) => say(path, 'This must be a number, like 538.'))
  if (sense === 'between' && value !== null && upper === null)
    return say('upper', 'A limit with two ends needs the upper one too.')
  if (sense === 'between' && value === null && upper !== null)
    return say('value', 'A limit with two ends needs the lower one too.')
  if (sense !== 'between' && upper !== null) return say('upper', 'Only a limit with two ends has an upper one.')
  if (value !== null && upper !== null && decimal(value).gte(upper))
    return say('upper', 'The upper end must lie above the lower one.')
  if (decisionRule === 'simple acceptance')
    return uncertainty
      ? say('decisionRule', 'Simple acceptance takes no uncertainty: choose another rule, or leave it out.')
      : []
  if (!uncertainty) return say('uncertainty.expanded', `The ${decisionRule} rule takes an expanded uncertainty U.`)
  if (!endsOf(limit)) return say('decisionRule', 'Without a limit there is nothing to decide.')
  if (decimal(uncertainty.expanded).lte(0)) return say('uncertainty.expanded', 'U must be more than 0.')
  if (decimal(uncertainty.coverageFactor).lte(0)) return say('uncertainty.coverageFactor', 'k must be more than 0.')
  if (
    sense === 'between' &&
    decimal(uncertainty.expanded)
      .times(2)
      .gt(decimal(upper ?? '0').minus(value ?? '0'))
  )
    return say('uncertainty.expanded', 'Twice U is wider than the limit: no result could be accepted.')
  return []
}

function faultsOfSieve(sieve: BandSieve, wider: BandSieve | undefined, n: number): WrittenFault[] {
  const at = `gradationBand.sieves.${n}`
  const { size, from, to, tolerance } = sieve
  const fault = (path: string, sentence: string) => [{ path: `${at}.${path}`, sentence }]
  const wrong = Object.entries({ size, from, to, tolerance }).filter(
    ([, digits]) => digits !== null && !isNumber(digits),
  )
  if (wrong.length > 0) return wrong.flatMap(([path]) => fault(path, 'This must be a number, like 4.75.'))
  if (decimal(size).lte(0)) return fault('size', 'The opening of a sieve is more than 0 mm.')
  if (decimal(to).gt(100)) return fault('to', 'What passes lies between 0 and 100 %.')
  if (decimal(from).gt(to)) return fault('from', 'The lower edge lies above the upper one.')
  // What the one before says wrong is said there.
  if (!wider || !isNumber(wider.size) || !isNumber(wider.from) || !isNumber(wider.to)) return []
  if (decimal(size).gte(wider.size))
    return fault('size', `Sieves go from the widest down: ${size} is not less than ${wider.size}.`)
  if (decimal(from).gt(wider.from) || decimal(to).gt(wider.to))
    return fault('from', 'No more may pass a sieve than the wider one above it.')
  return []
}
