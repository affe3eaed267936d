import type { SpecimenRow } from '@curebook/contract/designs'
import type { PanelChart, PanelTests } from '@curebook/contract/panel-tests'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { chartPoints, type ChartedPoint } from '@curebook/trade/procedure/method-chart'
import { answering } from '@curebook/trade/specification/enterable'
import { acceptanceEnds } from '@curebook/trade/specification/limit-decision'
import { panels } from '@curebook/trade/specification/panels'
import type { Limit } from '@curebook/trade/specification/specification'
import { observedOf, resultBriefs } from '#features/bench/work-record.service'
import type { DesignsService } from '#features/designs/designs.service'
import type { SpecificationsService } from '#features/specifications/specifications.service'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { rowsSqlOf } from '#platform/sql-rows'
import { askedCountsIn } from './asked-counts.ts'
import { foundWithoutLimit } from './found-without-limit.ts'
import { findPanelTests } from './panel-tests.repository.ts'
import { unheldLimits } from './unheld-limits.ts'

export type PanelTestsService = ReturnType<typeof createPanelTestsService>
type Deps = {
  laboratory: Laboratory
  designs: DesignsService
  specifications: SpecificationsService
  methods: readonly MethodDeclaration[]
}
type Charted = {
  readonly specimen: SpecimenRow
  readonly method: MethodDeclaration
  readonly points: readonly ChartedPoint[]
}

/** The tests that a design's panel asks for beside its series: what is planned, what was found, and how it is drawn. */
export function createPanelTestsService({ laboratory, designs, specifications, methods }: Deps) {
  const answeredBy = (limit: Pick<Limit, 'property' | 'soak'>) =>
    answering(limit, methods).map(({ method: { key, name, place } }) => ({ key, name, place }))

  const read = (actor: Actor, designId: string, number?: number): Promise<PanelTests> =>
    laboratory.inLaboratory(actor, async (tx) => {
      const sql = rowsSqlOf(tx)
      const design = await designs.readIn(tx, designId, number)
      const limits = (await specifications.rulesIn(tx, design.specification.id))?.limits ?? []
      const standing = await findPanelTests(sql, {
        ...{ designId, upTo: design.revision },
        methodKeys: methods.map(({ key }) => key),
      })
      const unnamed = unheldLimits(standing, { limits }, methods)
      const specimens = await designs.specimensIn(tx, designId, design.revision)
      const beside = specimens.flatMap((specimen) => {
        const method = methodByKey(methods, specimen.methodKey)
        return method?.place === 'panel' ? [{ specimen, method }] : []
      })
      const ids = beside.map(({ specimen }) => specimen.testId)
      const limitOf = ({ property, soak }: Pick<Limit, 'property' | 'soak'>) =>
        limits.find((limit) => limit.property === property && limit.soak === soak)
      const unheld = panels
        .flatMap(({ tests }) => tests.flatMap(({ properties }) => properties))
        .filter((property) => limitOf(property) === undefined)
      const ofUnheld = new Set(
        unheld.flatMap((property) => answering(property, methods)).map(({ method }) => method.key),
      )
      const others = specimens.filter(({ testId, methodKey }) => ofUnheld.has(methodKey) && !ids.includes(testId))
      const results = await resultBriefs(sql, methods, [...ids, ...others.map(({ testId }) => testId)])
      const readings = await observedOf(sql, ids)
      const charted = beside.flatMap(({ specimen, method }): Charted[] => {
        if (!method.chart || specimen.state === 'void' || specimen.state === 'replaced') return []
        const own = results.filter(({ testId }) => testId === specimen.testId)
        const points = chartPoints(method.chart, {
          readings: readings.get(specimen.testId) ?? [],
          results: own.flatMap(({ key, value, unit }) =>
            value === null || unit === null ? [] : [{ key, value, unit }],
          ),
          content: specimen.emulsionPercent,
        })
        return [{ specimen, method, points }]
      })
      return {
        tests: beside.map(({ specimen: { testId, code, label, form, ...specimen } }) => ({
          ...{ testId, code, label, form },
          methodKey: specimen.methodKey,
          methodName: specimen.methodName,
          emulsionPercent: specimen.emulsionPercent,
          state: specimen.state,
          stepTitle: specimen.stepTitle,
          results: results.filter((result) => result.testId === testId).map(({ testId: _, ...result }) => result),
        })),
        charts: chartsOf(charted, limits),
        series: seriesOf(specimens, methods),
        counts: [...(await askedCountsIn(sql, methods, design))],
        properties: [...limits, ...unnamed].map((limit) => ({
          limitKey: limit.key,
          methods: answeredBy(limit),
        })),
        panels: panels.map(({ key, name, source, tests }) => ({
          ...{ key, name, source },
          tests: tests.map(({ designation, title, properties }) => ({
            ...{ designation, title },
            properties: properties.map(({ property, soak, label }) => ({
              label,
              limitKey: limitOf({ property, soak })?.key ?? null,
              found:
                limitOf({ property, soak }) === undefined
                  ? foundWithoutLimit({ property, soak, label }, { methods, specimens, results })
                  : [],
              methods: answeredBy({ property, soak }),
            })),
          })),
        })),
      }
    })
  return { read }
}

function seriesOf(specimens: readonly SpecimenRow[], methods: readonly MethodDeclaration[]): PanelTests['series'] {
  return methods
    .filter(({ place }) => place === 'series')
    .flatMap(({ key: methodKey }) => {
      const counting = specimens.filter(
        (one) => one.methodKey === methodKey && !['void', 'replaced', 'spare'].includes(one.state),
      )
      const states = counting.map(({ state }) => state)
      const done = states.filter((state) => state === 'done').length
      const begun = states.filter((state) => state !== 'waiting').length
      return counting.length === 0 ? [] : [{ methodKey, count: counting.length, begun, done }]
    })
}

/** One chart for each key that has points: a line for each test, or for each named line over all tests. */
function chartsOf(charted: readonly Charted[], limits: readonly Limit[]): PanelChart[] {
  const keys = [...new Set(charted.filter(({ points }) => points.length > 0).map(({ method }) => method.chart!.key))]
  return keys.map((key) => {
    const own = charted.filter(({ method, points }) => method.chart!.key === key && points.length > 0)
    const { title, x, y, lines } = own[0]!.method.chart!
    const pointsOf = ({ specimen, points }: Charted, line: number) =>
      points
        .filter((point) => point.line === line)
        .map((point) => ({ testId: specimen.testId, code: specimen.code, x: point.x, y: point.y }))
    return {
      ...{ key, title, x, y },
      lines: lines.flatMap(({ label, points }, line) => {
        // Several points of one test are its course; single points of many tests are one cloud.
        if (label === undefined && points.length > 1)
          return own.map((one) => ({
            key: one.specimen.testId,
            label: `${one.specimen.label} (${one.specimen.code})`,
            points: pointsOf(one, line),
          }))
        return [{ key: `${key} ${line}`, label: label ?? title, points: own.flatMap((one) => pointsOf(one, line)) }]
      }),
      limits: limits.flatMap((limit) => {
        const answered = answering(
          limit,
          own.map(({ method }) => method),
        )
        return limit.value === null || limit.unit !== y.unit || answered.length === 0
          ? []
          : [
              {
                key: limit.key,
                label: limit.label,
                value: limit.value,
                upper: limit.upper ?? null,
                unit: limit.unit,
                sense: limit.sense,
                accepted: acceptedOf(limit),
              },
            ]
      }),
    }
  })
}

/** The acceptance limit that a guard band draws inside the limit, as far as its uncertainty is held; else null. */
function acceptedOf(limit: Limit): PanelChart['limits'][number]['accepted'] {
  const ends = limit.decisionRule === 'guard band' ? acceptanceEnds(limit) : undefined
  const [value, other] = [ends?.lower, ends?.upper].flatMap((end) => end ?? [])
  return value === undefined ? null : { value, upper: other ?? null }
}
