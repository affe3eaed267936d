import type { Design } from '@curebook/contract/designs'
import type { ExcludedPoint } from '@curebook/contract/range'
import { acceptableRange, type AcceptableRange, type RangeInput } from '@curebook/trade/design/acceptable-range'
import type { CurveInput } from '@curebook/trade/design/curve'
import type { RangeBand } from '@curebook/trade/design/range-end'
import { residualOfEmulsion } from '@curebook/trade/design/residual-binder'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import type { DecimalSign } from '@curebook/trade/quantity/display'
import { curveLimitOf } from '@curebook/trade/specification/curve-limit'
import { answering } from '@curebook/trade/specification/enterable'
import { isNamedIn, type PanelClassPoint, type PanelTestPoint } from '@curebook/trade/specification/panel-tests'
import type { Limit, Specification } from '@curebook/trade/specification/specification'
import type { RowsSql } from '#platform/sql-rows'
import { findPanelTests } from './panel-tests.repository.ts'
import { findPoints, type PointRow } from './range.repository.ts'
import { unheldLimits } from './unheld-limits.ts'

/** Which end of the range a property bears on; the others of the panel bear on none. */
const bearings: Readonly<Record<string, 'minimum' | 'maximum'>> = {
  'abrasion-loss': 'minimum',
  // EN 12274-5 reads a minimum binder content off the curve of wearing (title of the edition of 2018).
  wearing: 'minimum',
  'sand-adhesion': 'maximum',
}

export type DesignRange = {
  /** What the range was computed from, to ask what it would be without a specimen. */
  readonly input: RangeInput
  readonly range: AcceptableRange
  readonly band: RangeBand
  /** The method behind each curve, by the curve's key; null where none of this build answers the property. */
  readonly methodOf: Readonly<Record<string, string | null>>
  /** Results that do not count, by the curve's key. */
  readonly excludedOf: Readonly<Record<string, readonly ExcludedPoint[]>>
  /** Results of finished tests of the panel, by the limit that they answer. */
  readonly tested: readonly PanelTestPoint[]
  /** The same where a class answers the limit. */
  readonly classed: readonly PanelClassPoint[]
  /** Methods of the panel that answer each limit, by its key: the one that the limit names in front. */
  readonly methodsOf: Readonly<Record<string, readonly string[]>>
  /** A line without a limit for each property that was found and that the specification does not name. */
  readonly unheld: readonly Limit[]
}

/** The acceptable range of a revision from what stands now: curves with x as weighed, each in its limit's own unit. */
export async function designRange(
  sql: RowsSql,
  {
    design,
    rules,
    methods,
    sign,
  }: {
    design: Pick<Design, 'id' | 'revision' | 'residue' | 'mixes'>
    rules: Specification
    methods: readonly MethodDeclaration[]
    sign: DecimalSign
  },
): Promise<DesignRange> {
  const bearing = rules.limits.flatMap((limit) => {
    const bears = bearings[limit.property]
    return bears
      ? [
          {
            limit,
            bears,
            method: answering(limit, methods).find(({ method }) => method.place === 'series')?.method,
          },
        ]
      : []
  })
  const known = bearing.flatMap(({ method }) => method ?? [])
  const found = await findPoints(sql, {
    designId: design.id,
    upTo: design.revision,
    methodKeys: known.map(({ key }) => key),
    resultKeys: known.map(({ resultOfRecord }) => resultOfRecord),
  })
  const all = found.map(contentOf(design))
  const points = all.filter(({ counts }) => counts)
  const residue = design.residue?.value ?? null
  const curves = bearing.map(({ limit, bears, method }) =>
    curveOf(
      limit,
      bears,
      points.filter(({ methodKey }) => methodKey === method?.key),
      { residue, sign },
    ),
  )
  const band = { from: rules.residualBand.from, to: rules.residualBand.to, source: rules.residualBand.source }
  const input = { curves, band, residuePercent: residue, sign }
  return {
    input,
    range: acceptableRange(input),
    band,
    excludedOf: Object.fromEntries(
      bearing.map(({ limit, method }, index) => {
        const own = all.filter(
          ({ counts, methodKey, unit }) => !counts && methodKey === method?.key && unit === curves[index]?.unit,
        )
        return [limit.key, residue === null ? [] : own.map((row) => excludedOf(row, residue))]
      }),
    ),
    methodOf: Object.fromEntries(bearing.map(({ limit, method }) => [limit.key, method?.key ?? null])),
    ...(await panelTestsOf(sql, design, rules, methods)),
  }
}

async function panelTestsOf(
  sql: RowsSql,
  design: Pick<Design, 'id' | 'revision'>,
  rules: Specification,
  methods: readonly MethodDeclaration[],
): Promise<Pick<DesignRange, 'tested' | 'classed' | 'methodsOf' | 'unheld'>> {
  const found = await findPanelTests(sql, {
    designId: design.id,
    upTo: design.revision,
    methodKeys: methods.filter(({ answers }) => answers.length > 0).map(({ key }) => key),
  })
  const unheld = unheldLimits(found, rules, methods)
  const beside = methods.filter(({ place }) => place === 'panel')
  // A series answers its limit by its curve; without a limit it has none, and answers as any test does.
  const answersTo = (limits: readonly Limit[], by: readonly MethodDeclaration[]) =>
    limits.flatMap((limit) =>
      answering(limit, by)
        .toSorted((a, b) => Number(isNamedIn(limit, b.method)) - Number(isNamedIn(limit, a.method)))
        .map((answer) => ({ ...answer, limitKey: limit.key })),
    )
  const answers = [...answersTo(rules.limits, beside), ...answersTo(unheld, methods)]
  const methodsOf = Object.fromEntries(
    [...rules.limits, ...unheld].map(({ key }) => [
      key,
      answers.filter(({ limitKey }) => limitKey === key).map(({ method }) => method.key),
    ]),
  )
  const answered = found.flatMap(({ resultKey, ...row }) =>
    answers
      .filter(({ method, result }) => method.key === row.methodKey && result === resultKey)
      .map((answer) => ({ row, answer })),
  )
  const tested = answered.flatMap(({ row: { choice: _, value, unit, ...point }, answer: { limitKey } }) =>
    value === null || unit === null ? [] : [{ ...point, value, unit, limitKey }],
  )
  const classed = answered.flatMap(({ row: { choice, value: _, unit: __, ...point }, answer }) =>
    choice === null ? [] : [{ ...point, limitKey: answer.limitKey, ...classOf(choice, answer) }],
  )
  return { tested, classed, methodsOf, unheld }
}

function classOf(
  choice: string,
  { method, result, passes }: { method: MethodDeclaration; result: string; passes: readonly string[] },
): Pick<PanelClassPoint, 'words' | 'passes'> {
  const classes = method.results.find(({ key }) => key === result)?.choices
  return { words: classes?.find(({ key }) => key === choice)?.label ?? choice, passes: passes.includes(choice) }
}

/**
 * A later revision's mixes are copies with ids of their own: specimens of one content belong together whichever revision
 * they were made in, under the id that the revision shown gives it.
 */
function contentOf({ mixes }: Pick<Design, 'mixes'>): (row: PointRow) => PointRow {
  const byContent = new Map(mixes.map(({ id, emulsionPercent }) => [plainDigits(decimal(emulsionPercent)), id]))
  return (row) => {
    const content = plainDigits(decimal(row.emulsionPercent))
    const mixId = byContent.get(content) ?? row.mixId
    byContent.set(content, mixId)
    return { ...row, mixId }
  }
}

/** The curve stands in the limit's unit where a result does; else in the unit there is, which is then said. */
function curveOf(
  limit: Limit,
  bears: CurveInput['bears'],
  rows: readonly PointRow[],
  { residue, sign }: { readonly residue: string | null; readonly sign: DecimalSign },
): CurveInput {
  const unit = rows.some((row) => row.unit === limit.unit) ? limit.unit : (rows[0]?.unit ?? limit.unit)
  // Without a residue there is no binder content to place a point at.
  const placed = residue === null ? [] : rows.filter((row) => row.unit === unit).map((row) => pointOf(row, residue))
  return {
    key: limit.key,
    label: limit.label,
    property: limit.property,
    soak: limit.soak,
    bears,
    unit,
    limit: curveLimitOf(limit, sign),
    points: placed,
  }
}

function excludedOf(row: PointRow, residue: string): ExcludedPoint {
  const { testId, resultId, code, label, mixId, emulsionPercent, x, y } = pointOf(row, residue)
  const kind = row.isVoid ? 'void' : 'unused-spare'
  const why = { kind, reason: row.voidReason ?? '', by: row.voidBy } as const
  return { testId, resultId, code, label, mixId, emulsionPercent, x, y, ...why }
}

function pointOf(row: PointRow, residue: string): CurveInput['points'][number] {
  return {
    testId: row.testId,
    resultId: row.resultId,
    xResultId: row.contentId,
    code: row.code,
    label: row.label,
    mixId: row.mixId,
    emulsionPercent: row.emulsionPercent,
    x: residualOfEmulsion(row.content, residue),
    y: row.y,
    flags: [
      ...(row.corrected > 0 ? ['reading corrected'] : []),
      ...(row.deviations > 0 ? ['deviation, see list'] : []),
      ...(row.replaces ? [`spare in place of ${row.replaces}`] : []),
    ],
  }
}
