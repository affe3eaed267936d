import type { AskedCount } from '@curebook/contract/panel-tests'
import type { RangeView } from '@curebook/contract/range'
import { isAtContent, seriesPractice } from '#features/range/replicates.service'
import type { FoundPoint } from './review-points.ts'

/**
 * Where fewer tests count than their editions ask for: the means of the curves, then tests beside the series that are all
 * finished. It is told to whoever signs, and settled with a word.
 */
export function fewPoints({ curves }: Pick<RangeView, 'curves'>, counts: readonly AskedCount[]): FoundPoint[] {
  const ofSeries = curves.flatMap(({ key, label, methodKey, means }) =>
    means.flatMap(({ mixId, emulsionPercent, n }) => {
      const own = counts.find((count) => count.methodKey === methodKey && isAtContent(count, emulsionPercent))
      const asked = own?.asked ?? seriesPractice
      // With n: a word on n = 2 does not settle n = 1.
      const point = { key: `few:${key}:${mixId}:${n}`, what: `${label} at ${emulsionPercent} % emulsion` }
      return n < asked ? [pointOf(point, { n, asked, voided: own?.voided ?? 0 })] : []
    }),
  )
  const inCurves = new Set(curves.map(({ methodKey }) => methodKey))
  const beside = counts
    .filter(({ methodKey, counted, open, asked }) => !inCurves.has(methodKey) && open === 0 && counted < asked)
    .filter(({ counted }) => counted > 0)
    .map(({ methodKey, methodName, emulsionPercent, counted: n, asked, voided }) => {
      const at = emulsionPercent === null ? '' : ` at ${emulsionPercent} % emulsion`
      const point = { key: `few:${methodKey}:${emulsionPercent ?? ''}:${n}`, what: `${methodName}${at}` }
      return pointOf(point, { n, asked, voided })
    })
  return [...ofSeries, ...beside]
}

function pointOf(
  { key, what }: { readonly key: string; readonly what: string },
  { n, asked, voided }: { readonly n: number; readonly asked: number; readonly voided: number },
): FoundPoint {
  const isVoid = voided === 0 ? '' : voided === 1 ? '; 1 is void' : `; ${voided} are void`
  return {
    ...{ key, kind: 'few-replicates', name: null, code: null, testId: null, blocking: false },
    sentence: `${what}: n = ${n} of ${asked} asked for${isVoid}.`,
  }
}
