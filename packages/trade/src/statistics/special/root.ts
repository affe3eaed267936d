// Numbers of this file: first guesses and ends of an iteration in doubles (IEEE 754), which bound no result.

import { MethodInputError } from '../../quantity/method-input-error.ts'

/**
 * Where a continuous function is 0 between two points at which its signs differ, to the last digits of a double.
 * R. P. Brent, Algorithms for Minimization without Derivatives, 1973, chapter 4 (zeroin).
 * @throws MethodInputError `inconsistent` when the signs do not differ
 */
export function rootBetween(f: (x: number) => number, from: number, to: number): number {
  let [a, b] = [from, to]
  let [fa, fb] = [f(a), f(b)]
  if (!(fa * fb <= 0)) throw new MethodInputError('inconsistent', 'No solution lies within these bounds.')
  let [c, fc] = [a, fa]
  let step = b - a
  let last = step
  for (let turn = 0; turn < 200; turn += 1) {
    if (Math.abs(fc) < Math.abs(fb)) [a, b, c, fa, fb, fc] = [b, c, b, fb, fc, fb]
    const tolerance = 2 * Number.EPSILON * Math.abs(b) + Number.MIN_VALUE
    const half = (c - b) / 2
    if (Math.abs(half) <= tolerance || fb === 0) return b
    const tried = Math.abs(last) >= tolerance && Math.abs(fa) > Math.abs(fb) ? interpolated(a, b, c, fa, fb, fc) : null
    if (tried !== null && 2 * Math.abs(tried) < Math.min(3 * Math.abs(half) - tolerance, Math.abs(last))) {
      last = step
      step = tried
    } else {
      step = half
      last = half
    }
    ;[a, fa] = [b, fb]
    b += Math.abs(step) > tolerance ? step : Math.sign(half) * tolerance
    fb = f(b)
    if (fb > 0 === fc > 0) {
      ;[c, fc] = [a, fa]
      step = b - a
      last = step
    }
  }
  return b
}

/** The step to the zero of the curve through the points: inverse quadratic, or straight where two points are one. */
function interpolated(a: number, b: number, c: number, fa: number, fb: number, fc: number): number | null {
  const s = fb / fa
  const half = (c - b) / 2
  let [p, q] = [2 * half * s, 1 - s]
  if (a !== c) {
    const t = fa / fc
    const r = fb / fc
    p = s * (2 * half * t * (t - r) - (b - a) * (r - 1))
    q = (t - 1) * (r - 1) * (s - 1)
  }
  const step = p > 0 ? p / -q : -p / q
  return Number.isFinite(step) && step * half > 0 ? step : null
}

/**
 * Where two tails of a distribution over the positive numbers part as asked: the tail that is smaller is solved for, in
 * logarithms, so that far quantiles keep their digits. `variable` turns any real number into the quantile's scale.
 */
export function quantileOf(
  tails: (at: number) => { readonly lower: number; readonly upper: number },
  lowerShare: number,
  upperShare: number,
): number {
  const useLower = lowerShare <= upperShare
  const target = Math.log(useLower ? lowerShare : upperShare)
  const f = (at: number) => {
    const { lower, upper } = tails(at)
    const tail = useLower ? lower : upper
    const height = Math.max(Math.log(tail), -1e4) - target
    return useLower ? height : -height
  }
  let width = 1
  while (width < 1000 && f(-width) > 0) width *= 2
  const from = -width
  width = 1
  while (width < 1000 && f(width) < 0) width *= 2
  return rootBetween(f, from, width)
}
