import type { ReplicateGroup, Replicates } from '@curebook/contract/replicates'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { EditionParameter, EditionParameters, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import { answering } from '@curebook/trade/specification/enterable'
import type { Specification } from '@curebook/trade/specification/specification'
import { replicateFindings } from '@curebook/trade/statistics/replicate-findings'
import type { DesignRange } from './design-range.ts'
import type { PanelTestRow } from './panel-tests.repository.ts'
import type { TestFacts } from './replicates.repository.ts'

type Facts = {
  readonly methods: readonly MethodDeclaration[]
  readonly limits: Specification['limits']
  readonly tests: readonly TestFacts[]
}
type Found = Pick<
  ReplicateGroup,
  'key' | 'place' | 'curve' | 'label' | 'unit' | 'displayDecimals' | 'emulsionPercent' | 'results'
> & { readonly method: MethodDeclaration; readonly resultKey: string }

/** The means of the curves that rest on two results or more. */
export function seriesGroups({ range, methodOf }: Pick<DesignRange, 'range' | 'methodOf'>, facts: Facts) {
  return range.curves.flatMap((curve) => {
    const method = methodByKey(facts.methods, methodOf[curve.key] ?? '')
    if (!method) return []
    const declared = declaredOf(method, method.resultOfRecord, curve.unit)
    return curve.means.flatMap(({ mixId, emulsionPercent, points }) =>
      groupOf(
        {
          ...{ key: `${curve.key} ${mixId}`, place: 'series', curve: { key: curve.key, mixId } },
          ...{ method, resultKey: method.resultOfRecord, label: curve.label, unit: curve.unit, emulsionPercent },
          displayDecimals: declared?.displayDecimals ?? 2,
          results: points.map(({ testId, code, label, y }) => ({ testId, code, label, value: y })),
        },
        facts,
      ),
    )
  })
}

/**
 * Numbers of finished tests beside the series: those of one method, one result and one content belong together. Where a result
 * is declared without a unit it is one number in several, and the limit's unit is taken; units of their own are results of
 * their own.
 */
export function panelGroups(rows: readonly PanelTestRow[], facts: Facts): Replicates {
  const sets = new Map<string, { method: MethodDeclaration; rows: PanelTestRow[] }>()
  for (const row of rows) {
    const method = methodByKey(facts.methods, row.methodKey)
    if (!method || row.value === null || row.unit === null) continue
    const content = row.emulsionPercent === null ? '' : plainDigits(decimal(row.emulsionPercent))
    const ownUnit = declaredOf(method, row.resultKey, row.unit)?.unit ?? ''
    const key = [row.methodKey, row.resultKey, ownUnit, content].join('|')
    const set = sets.get(key) ?? { method, rows: [] }
    set.rows.push(row)
    sets.set(key, set)
  }
  const all = [...sets].map(([key, set]) => ({ key, ...set }))
  const apart = all.filter(({ method, rows: own }) => method.noReplicates !== undefined && own.length > 1)
  const groups = all.flatMap(({ key, method, rows: own }) => {
    if (method.noReplicates !== undefined) return []
    const unit = unitOf(method, own, facts.limits)
    const [first] = own
    const declared = declaredOf(method, first!.resultKey, unit)
    return groupOf(
      {
        ...{ key, place: 'panel', curve: null, method, unit },
        resultKey: first!.resultKey,
        label: declared?.label ?? first!.resultKey,
        displayDecimals: declared?.displayDecimals ?? 2,
        emulsionPercent: first!.emulsionPercent,
        results: own
          .filter((row) => row.unit === unit)
          .map(({ testId, code, label, value }) => ({ testId, code, label, value: value! })),
      },
      facts,
    )
  })
  const named = apart.map(({ method: { name, noReplicates } }) => ({ methodName: name, why: noReplicates! }))
  return { groups, apart: named.filter((one, at) => named.findIndex((o) => o.methodName === one.methodName) === at) }
}

const declaredOf = ({ results }: MethodDeclaration, key: string, unit: string) =>
  results.find((result) => result.key === key && (result.unit ?? unit) === unit)

function unitOf(method: MethodDeclaration, rows: readonly PanelTestRow[], limits: Facts['limits']): string {
  const units = [...new Set(rows.map(({ unit }) => unit!))]
  const asked = limits.find(
    (limit) =>
      units.includes(limit.unit) && answering(limit, [method]).some(({ result }) => result === rows[0]?.resultKey),
  )
  const count = (unit: string) => rows.filter((row) => row.unit === unit).length
  return asked?.unit ?? units.reduce((most, unit) => (count(unit) > count(most) ? unit : most))
}

function groupOf({ method, resultKey, ...group }: Found, { tests }: Facts): ReplicateGroup[] {
  const { results, unit } = group
  if (results.length < 2) return []
  const own = tests.filter(({ testId }) => results.some((result) => result.testId === testId))
  const held = repeatabilityOf(declaredOf(method, resultKey, unit)?.repeatability, own)
  const repeatability = held === 'none-published' || held === 'editions-differ' ? null : held
  const { summary, acceptable, outliers, untested } = replicateFindings(
    results.map(({ testId, value }) => ({ id: testId, value })),
    unit,
    repeatability,
  )
  return [
    {
      ...group,
      methodKey: method.key,
      methodName: method.name,
      ofSample: method.ofSample ?? false,
      n: summary.n,
      mean: summary.mean,
      standardDeviation: summary.standardDeviation ?? '0',
      range: summary.range,
      repeatability,
      noRepeatability: held === 'none-published' || held === 'editions-differ' ? held : null,
      acceptable,
      outliers: outliers.map(({ test, ratio, statistic, critical, significance, exceeds, suspect }) => ({
        ...{ test, ratio, statistic, critical, exceeds },
        significancePercent: plainDigits(decimal(significance).times(100)),
        suspect: results.find(({ testId }) => testId === suspect) ?? null,
      })),
      untested,
    },
  ]
}

/** The repeatability that the editions of all these tests hold; of two that differ neither is taken. */
function repeatabilityOf(
  parameter: string | undefined,
  tests: readonly TestFacts[],
): NonNullable<ReplicateGroup['repeatability']> | 'none-published' | 'editions-differ' {
  if (parameter === undefined) return 'none-published'
  const held = tests.map(({ parameters }): EditionParameter | undefined =>
    parameters === null ? undefined : (JSON.parse(parameters) as EditionParameters)[parameter],
  )
  const [first] = held
  if (held.every((one) => one === undefined)) return 'none-published'
  if (!first || held.some((one) => one?.value !== first.value || one.unit !== first.unit)) return 'editions-differ'
  const { value, unit, source, clause, certainty } = first
  return { value, unit, source: clause ? `${source}, ${clause}` : source, certainty }
}
