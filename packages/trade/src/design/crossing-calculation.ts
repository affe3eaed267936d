import type { Calculation } from '../procedure/calculation.ts'
import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import type { CurveCrossing, CurveLimit, CurveMean } from './curve.ts'

const byArithmetic = 'arithmetic mean of the replicates'

/**
 * The working of a crossing, from each specimen's content and result to the content at the limit; with `edge`, the band's
 * edge that the crossing gives way to stands as the last line.
 */
export function crossingCalculation(
  crossing: CurveCrossing,
  curve: { readonly label: string; readonly unit: string; readonly limit: CurveLimit | null },
  xUnit: string,
  edge?: { readonly value: string; readonly source: string },
): Calculation {
  const work = createCalculation()
  const { lean, rich } = crossing
  const { limit } = curve
  if (limit && lean !== rich) {
    meanLines(work, 'a', lean, curve, xUnit)
    meanLines(work, 'b', rich, curve, xUnit)
    const text = { symbol: 'L', name: limit.label, unit: limit.unit, source: limit.source }
    work.input(text, limit.value, { kind: 'constant', key: 'limit' })
    const name = `Content at which the line between the means of ${lean.emulsionPercent} and ${rich.emulsionPercent} % emulsion meets the limit`
    work.interpolate({ symbol: 'P', name, unit: xUnit, source: 'linear interpolation' }, 'L', 'Ya', 'Xa', 'Yb', 'Xb')
  } else meanLines(work, 'a', lean, curve, xUnit)
  if (edge) edgeLine(work, edge, xUnit)
  return work.calculation()
}

/** A band's edge by itself. */
export function edgeCalculation(edge: { readonly value: string; readonly source: string }, xUnit: string): Calculation {
  const work = createCalculation()
  edgeLine(work, edge, xUnit)
  return work.calculation()
}

/** Half-way between two closed ends. */
export function midpointCalculation(minimum: string, maximum: string, xUnit: string): Calculation {
  const work = createCalculation()
  const end = (symbol: string, name: string, value: string, key: string) =>
    work.input({ symbol, name, unit: xUnit, source: 'end of the acceptable range' }, value, { kind: 'result', key })
  end('Pmin', 'Minimum', minimum, 'minimum')
  end('Pmax', 'Maximum', maximum, 'maximum')
  work.mean({ symbol: 'Pmid', name: 'Midpoint', unit: xUnit, source: 'halfway between the two ends' }, 'Pmin', 'Pmax')
  return work.calculation()
}

function edgeLine(work: CalculationBuilder, edge: { value: string; source: string }, xUnit: string) {
  const text = { symbol: 'edge', name: 'Edge of the band of the specification', unit: xUnit, source: edge.source }
  work.input(text, edge.value, { kind: 'constant', key: 'band' })
}

/** Inputs and means of one content: Y and X with the letter of the side; the mean of x comes last. */
export function meanLines(
  work: CalculationBuilder,
  side: 'a' | 'b',
  mean: CurveMean,
  curve: { readonly label: string; readonly unit: string },
  xUnit: string,
) {
  mean.points.forEach((point, index) => {
    const text = { name: `${curve.label}, ${point.label}`, unit: curve.unit, source: 'result of the specimen' }
    work.input({ symbol: `y${side}${index + 1}`, ...text }, point.y, { kind: 'result', id: point.resultId })
  })
  mean.points.forEach((point, index) => {
    const text = { name: `Residual binder, ${point.label}`, unit: xUnit, source: 'as weighed' }
    work.input({ symbol: `x${side}${index + 1}`, ...text }, point.x, { kind: 'result', id: point.xResultId })
  })
  const all = (axis: 'x' | 'y') => mean.points.map((_, index) => `${axis}${side}${index + 1}`)
  const at = `at ${mean.emulsionPercent} % emulsion`
  work.mean({ symbol: `Y${side}`, name: `Mean ${at}`, unit: curve.unit, source: byArithmetic }, ...all('y'))
  work.mean({ symbol: `X${side}`, name: `Mean content ${at}`, unit: xUnit, source: byArithmetic }, ...all('x'))
}
