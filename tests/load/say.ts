/** One line: what was measured, what came out, what is aimed at. */
export const say = (what: string, measured: string, target: string): void =>
  void process.stdout.write(`${what.padEnd(46)} ${measured.padEnd(64)} aim: ${target}\n`)

export type Rate = { readonly perSecond: number; readonly times: readonly number[] }

/** The value below which that share of the times lies. */
export function percentile(times: readonly number[], share: number): number {
  const sorted = [...times].sort((a, b) => a - b)
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN
}

export const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length

export const milliseconds = (times: readonly number[]): string =>
  `${percentile(times, 0.5).toFixed(1)} ms (median of ${times.length})`

/** Requests a second of the product and of the bare route in one run, and how long one took. */
export function ratio(product: readonly Rate[], bare: readonly Rate[]): string {
  const [ours, theirs] = [product, bare].map((rates) => mean(rates.map(({ perSecond }) => perSecond))) as [
    number,
    number,
  ]
  const times = product.flatMap((rate) => rate.times)
  return `${ours.toFixed(0)}/s of ${theirs.toFixed(0)}/s bare, ${((ours / theirs) * 100).toFixed(0)} %; p50 ${percentile(times, 0.5).toFixed(1)}, p95 ${percentile(times, 0.95).toFixed(1)} ms`
}
