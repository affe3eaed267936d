import type { Calculation } from '../procedure/calculation.ts'
import { type CalculationBuilder, createCalculation } from '../procedure/calculation-builder.ts'
import { decimal, plainDigits } from '../quantity/decimal.ts'
import { isUnit, type UnitDefinition, units } from '../quantity/unit-table.ts'
import { inLimitUnit } from './enterable.ts'
import { endsOf, marginOf } from './limit-decision.ts'
import type { Limit } from './specification.ts'

/** A result of one finished test of the panel that answers a limit. */
export type PanelTestPoint = {
  readonly limitKey: string
  readonly methodKey: string
  readonly testId: string
  readonly resultId: string
  readonly code: string
  readonly label: string
  /** Emulsion content of the mix (target, % of dry aggregate); null for a test that depends on no content. */
  readonly emulsionPercent: string | null
  readonly value: string
  readonly unit: string
}

/** What the tests of one method say of a limit, in the limit's unit where it converts exactly. */
export type PanelTestValue = {
  readonly limitKey: string
  readonly methodKey: string
  readonly emulsionPercent: string | null
  readonly n: number
  readonly value: string
  readonly unit: string
  readonly calculation: Calculation
  /** Where its tests are no replicates: all of them; the one that is nearest to failing is judged. */
  readonly each?: readonly PanelTestPoint[]
}

/** The values of tests that are no replicates, where no limit chooses one of them. */
export type PanelValuesApart = Pick<PanelTestValue, 'methodKey' | 'emulsionPercent' | 'n'> & {
  readonly each: readonly PanelTestPoint[]
}

/** A class that one finished test of the panel fell into, where that answers a limit: no number, and it meets it or does not. */
export type PanelClassPoint = Omit<PanelTestPoint, 'value' | 'unit'> & {
  /** The class, in words. */
  readonly words: string
  readonly passes: boolean
}

/** What the classes of one method say of a limit: met where every test is in a class that meets it. */
export type PanelClassValue = {
  readonly methodKey: string
  readonly emulsionPercent: string | null
  readonly n: number
  readonly passes: boolean
  /** "pass (12-1), fail (12-2)" */
  readonly words: string
}

type Asked = {
  /** Emulsion, % of dry aggregate; null while none is recommended: then only tests of a single content speak. */
  readonly content: string | null
  /** Methods that answer the limit, the one to be asked first in front. */
  readonly methodKeys: readonly string[]
  /** Those of them whose tests at one content are no replicates of each other. */
  readonly apart?: readonly string[]
}
type Held = Pick<Limit, 'key' | 'label' | 'unit' | 'sense' | 'value' | 'upper'>

/**
 * The values that answer a limit at a content, one for each method with a test there, in the order of the methods: the mean
 * of its tests of that content, or of those that depend on none. Tests of two methods are never thrown together, nor
 * results of two units: of a test the result in the limit's unit counts, else one that converts exactly into it, else the
 * only one there is. A method whose results cannot be told apart so gives no value. Tests that are no replicates have no
 * mean: each has to meet the limit, so that the one nearest to failing speaks; without a limit none of them does.
 */
export function panelTestValues(
  limit: Held,
  points: readonly PanelTestPoint[],
  asked: Asked,
): readonly PanelTestValue[] {
  return eachMethod(limit.key, points, asked, (methodKey, at) => {
    const chosen = chosenOf(limit, at)
    return asked.apart?.includes(methodKey) && chosen.length > 1
      ? nearestOf(limit, methodKey, chosen)
      : meanOf(limit, methodKey, chosen)
  })
}

/** Tests that are no replicates where no limit chooses one of them: told each by itself. */
export function panelValuesApart(
  limit: Held,
  points: readonly PanelTestPoint[],
  asked: Asked,
): readonly PanelValuesApart[] {
  if (endsOf(limit) !== undefined) return []
  return eachMethod(limit.key, points, asked, (methodKey, at) => {
    const chosen = chosenOf(limit, at)
    const [first] = chosen
    if (!first || chosen.length < 2 || !asked.apart?.includes(methodKey)) return undefined
    return { methodKey, emulsionPercent: first.emulsionPercent, n: chosen.length, each: chosen }
  })
}

/** The same for a limit that is answered by a class. */
export function panelClassValues(
  limit: Pick<Limit, 'key'>,
  points: readonly PanelClassPoint[],
  asked: Asked,
): readonly PanelClassValue[] {
  return eachMethod(limit.key, points, asked, (methodKey, at) => ({
    methodKey,
    emulsionPercent: at[0]?.emulsionPercent ?? null,
    n: at.length,
    passes: at.every(({ passes }) => passes),
    words: at.map(({ words, label }) => `${words} (${label})`).join(', '),
  }))
}

/** Whether a limit asks for a method by its designation: "EN 12274-2:2018" for EN 12274-2 of any year. */
export function isNamedIn(
  { method: named }: Pick<Limit, 'method'>,
  { editions }: { readonly editions: readonly { readonly designation: string }[] },
): boolean {
  if (!named) return false
  const plain = (designation: string) => designation.trim().replace(/:\d{4}$/, '')
  return editions.some(({ designation }) => designation.split(/[;,]/).some((one) => plain(one) === plain(named)))
}

/** Points of a content; without one, those of the only content there is. What depends on no content is at every one. */
export function pointsAt<P extends Pick<PanelTestPoint, 'emulsionPercent'>>(
  points: readonly P[],
  content: string | null,
): readonly P[] {
  const at = content ?? onlyContent(points)
  return points.filter(({ emulsionPercent }) => isAt(emulsionPercent, at))
}

/** While none is recommended the first method that speaks says of which content; the others are asked for that one. */
function eachMethod<
  P extends Pick<PanelTestPoint, 'limitKey' | 'methodKey' | 'emulsionPercent'>,
  V extends Pick<PanelTestPoint, 'emulsionPercent'>,
>(
  limitKey: string,
  points: readonly P[],
  { content, methodKeys }: Asked,
  valueOf: (methodKey: string, at: readonly P[]) => V | undefined,
): readonly V[] {
  return methodKeys.reduce<readonly V[]>((values, methodKey) => {
    const own = points.filter((point) => point.limitKey === limitKey && point.methodKey === methodKey)
    const at = pointsAt(own, content ?? values[0]?.emulsionPercent ?? null)
    const value = at.length > 0 ? valueOf(methodKey, at) : undefined
    return value ? [...values, value] : values
  }, [])
}

function isAt(emulsionPercent: string | null, content: string | null): boolean {
  if (emulsionPercent === null) return true
  return content !== null && decimal(emulsionPercent).eq(content)
}

function onlyContent(points: readonly Pick<PanelTestPoint, 'emulsionPercent'>[]): string | null {
  const contents = points.flatMap(({ emulsionPercent }) => emulsionPercent ?? [])
  const [first] = contents
  return first !== undefined && contents.every((one) => decimal(one).eq(first)) ? first : null
}

/** One result of each test; none at all where one of them has several and none fits. */
function chosenOf({ unit }: Pick<Limit, 'unit'>, points: readonly PanelTestPoint[]): readonly PanelTestPoint[] {
  const tests = [...new Set(points.map(({ testId }) => testId))]
  const chosen = tests.flatMap((testId) => {
    const own = points.filter((point) => point.testId === testId)
    const fitting = own.find((point) => point.unit === unit) ?? own.find((point) => converts(point.unit, unit))
    return fitting ?? (own.length === 1 ? own : [])
  })
  const isOneUnit = chosen.every((point) => point.unit === chosen[0]?.unit)
  const isComparable = chosen.every((point) => point.unit === unit || converts(point.unit, unit))
  return chosen.length === tests.length && (isOneUnit || isComparable) ? chosen : []
}

function meanOf(
  limit: Pick<Limit, 'key' | 'label' | 'unit'>,
  methodKey: string,
  points: readonly PanelTestPoint[],
): PanelTestValue | undefined {
  const [first] = points
  if (!first) return undefined
  const work = createCalculation()
  const isOneUnit = points.every(({ unit }) => unit === first.unit)
  points.forEach(({ label, value, unit: own, resultId }, index) => {
    const name = `${limit.label}, ${label}`
    work.input({ symbol: `y${index + 1}`, name, unit: own, source: 'result of the test' }, value, {
      kind: 'result',
      id: resultId,
    })
  })
  // Results of several units are converted each; of one unit their mean is.
  const symbols = points.map(({ unit }, index) =>
    isOneUnit ? `y${index + 1}` : convert(work, limit, { symbol: `y${index + 1}`, unit, suffix: String(index + 1) }),
  )
  const unit = isOneUnit ? first.unit : limit.unit
  const text = { name: `Mean of ${limit.label}`, unit, source: 'arithmetic mean of the replicates' }
  if (points.length > 1) work.mean({ symbol: 'Y', ...text }, ...symbols)
  convert(work, limit, { symbol: points.length > 1 ? 'Y' : 'y1', unit, suffix: '' })
  const calculation = work.calculation()
  const last = calculation.lines.at(-1)!
  return {
    limitKey: limit.key,
    methodKey,
    emulsionPercent: first.emulsionPercent,
    n: points.length,
    value: last.value,
    unit: last.unit,
    calculation,
  }
}

/** Of tests that are no replicates the one whose value lies nearest to failing, all others told with it. */
function nearestOf(limit: Held, methodKey: string, points: readonly PanelTestPoint[]): PanelTestValue | undefined {
  const ends = endsOf(limit)
  if (!ends) return undefined
  const judged = points.flatMap((point) => meanOf(limit, methodKey, [point]) ?? [])
  const [first, ...others] = judged
  if (!first) return undefined
  const nearest = others.reduce(
    (worst, one) => (marginOf(ends, one.value).lt(marginOf(ends, worst.value)) ? one : worst),
    first,
  )
  return { ...nearest, each: points }
}

/** Whether a unit stands in an exact relation to the limit's. */
function converts(unit: string, limitUnit: string): boolean {
  if (!isUnit(unit) || !isUnit(limitUnit) || inLimitUnit('1', unit, limitUnit) === undefined) return false
  const [from, to]: readonly UnitDefinition[] = [units[unit], units[limitUnit]]
  return from !== undefined && to !== undefined && from.offset === to.offset
}

/**
 * Multiplies before it divides, so that an exact relation gives exact digits: a value on the limit stays on it. What does
 * not convert stays as it is, and is then judged as undecided. Gives the symbol of the last line.
 */
function convert(
  work: CalculationBuilder,
  limit: Pick<Limit, 'label' | 'unit'>,
  { symbol, unit, suffix }: { readonly symbol: string; readonly unit: string; readonly suffix: string },
): string {
  if (unit === limit.unit || !isUnit(unit) || !isUnit(limit.unit) || !converts(unit, limit.unit)) return symbol
  const [from, to]: readonly [UnitDefinition, UnitDefinition] = [units[unit], units[limit.unit]]
  const source = 'exact relation of the units'
  const times = plainDigits(decimal(from.numerator).times(to.denominator))
  const by = plainDigits(decimal(from.denominator).times(to.numerator))
  const [product, quotient] = [`P${suffix}`, `L${suffix}`]
  work.product({ symbol: product, name: `${limit.label}, times ${times}`, unit, source }, symbol, times)
  work.quotient({ symbol: quotient, name: `${limit.label} in ${limit.unit}`, unit: limit.unit, source }, product, by)
  return quotient
}
