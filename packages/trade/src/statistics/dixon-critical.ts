import { normalCdf, normalDensity } from './distributions/normal.ts'
import { requireProbability, requireWhole } from './special/arguments.ts'
import { logGamma } from './special/log-gamma.ts'
import { gaussNodes, lineNodes } from './special/quadrature.ts'
import { rootBetween } from './special/root.ts'

/**
 * Dixon's ratios (W. J. Dixon, Annals of Mathematical Statistics 22, 1951), for a high suspect of x1 ≤ … ≤ xn:
 * (xn − x(n−j)) ÷ (xn − xi), `rjk` with k = i − 1. `above` is j and `from` is i.
 */
export const dixonRatios = {
  r10: { above: 1, from: 1 },
  r11: { above: 1, from: 2 },
  r21: { above: 2, from: 2 },
  r22: { above: 2, from: 3 },
} as const
export type DixonRatio = keyof typeof dixonRatios

/** Which ratio goes with how many results: 3–7, 8–10, 11–13, 14–30 (ASTM E178; Dean and Dixon, Analytical Chemistry 23, 1951). */
export function dixonRatioOf(n: number): DixonRatio {
  requireWhole(n, 3, 30, 'The number of results of a Dixon test')
  return n <= 7 ? 'r10' : n <= 10 ? 'r11' : n <= 13 ? 'r21' : 'r22'
}

/** Fewest results for which a ratio has a value: two more than it leaves out, by definition. */
const smallest = { r10: 3, r11: 4, r21: 5, r22: 6 } as const

/**
 * P(ratio > r) of n normal results, exactly, by double integration over the largest value x and its distance v to xi:
 * n! ÷ ((i − 1)! m!) ∬ φ(x) φ(x − v) Φ(x − v)^(i − 1) S dv dx, where m = n − i − 1 values lie between and S says that at most
 * j − 1 of them lie above x − r v: A^m, and for j = 2 also m A^(m − 1) B, with A = Φ(x − rv) − Φ(x − v), B = Φ(x) − Φ(x − rv).
 * About 9 digits.
 * @throws MethodInputError `inconsistent` for a ratio outside 0 to 1, or for n below what the ratio needs or above 30
 */
export function dixonUpperTail(r: number, n: number, ratio: DixonRatio): number {
  requireWhole(n, smallest[ratio], 30, 'The number of results of a Dixon test')
  requireProbability(r, 'A ratio')
  return upperTail(r, n, ratio, gridOf(n, ratio))
}

/**
 * Critical value of Dixon's test. Two-sided it stands at half the significance: exact where it is 0.5 or more, because then
 * both ends cannot exceed it at once, and a little on the safe side below (so D. B. Rorabacher, Analytical Chemistry 63,
 * 1991).
 * @throws MethodInputError `inconsistent` for a number of results that the ratio is not for, or a significance outside 0 to 1
 */
export function dixonCritical(
  n: number,
  significance: number,
  sides: 'one-sided' | 'two-sided',
  ratio: DixonRatio = dixonRatioOf(n),
): number {
  requireWhole(n, smallest[ratio], 30, 'The number of results of a Dixon test')
  requireProbability(significance, 'A significance')
  const tail = sides === 'two-sided' ? significance / 2 : significance
  const key = `${n} ${ratio} ${tail}`
  const known = criticals.get(key)
  if (known !== undefined) return known
  const grid = gridOf(n, ratio)
  const critical = rootBetween((r) => upperTail(r, n, ratio, grid) - tail, 1e-9, 1 - 1e-9)
  criticals.set(key, critical)
  return critical
}

// Each takes tens of milliseconds; they depend on nothing else.
const criticals = new Map<string, number>()

type Cell = {
  readonly x: number
  readonly v: number
  readonly top: number
  readonly bottom: number
  readonly mass: number
}

/**
 * The cells of the integration: what lies beyond 8 σ, or a range beyond 14 σ, is less than a double can add, and steps of an
 * eighth of σ sum a normal density to all of its digits (NIST Digital Library of Mathematical Functions 3.5(i)).
 */
function gridOf(n: number, ratio: DixonRatio): readonly Cell[] {
  const { from } = dixonRatios[ratio]
  const between = n - from - 1
  const count = Math.exp(logGamma(n + 1) - logGamma(from) - logGamma(between + 1))
  const distances = gaussNodes(0, 14, 7)
  return lineNodes(-8, 8, 0.125).flatMap(({ at: x, weight }) => {
    const top = normalCdf(x)
    return distances.flatMap(({ at: v, weight: across }) => {
      const bottom = normalCdf(x - v)
      const mass = count * weight * across * normalDensity(x) * normalDensity(x - v) * bottom ** (from - 1)
      // The share of the values between is at most 1: a cell this light cannot be seen in the sum.
      return mass < 1e-18 ? [] : [{ x, v, top, bottom, mass }]
    })
  })
}

function upperTail(r: number, n: number, ratio: DixonRatio, grid: readonly Cell[]): number {
  const { above, from } = dixonRatios[ratio]
  const between = n - from - 1
  return grid.reduce((sum, { x, v, top, bottom, mass }) => {
    const cut = normalCdf(x - r * v)
    const below = cut - bottom
    const none = below ** between
    const one = above === 2 ? between * below ** (between - 1) * (top - cut) : 0
    return sum + mass * (none + one)
  }, 0)
}
