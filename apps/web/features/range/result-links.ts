'use client'

import type { RangeView } from '@curebook/contract/range'
import { useMemo } from 'react'
import type { CalculationLink, LinkOfInput } from '#components/calculation-links.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

type Point = { readonly testId: string; readonly resultId: string; readonly label: string; readonly code: string }

/** Every result of a range by its id, those that do not count too: a calculation names no more of its inputs. */
export function pointsByResult(curves: RangeView['curves']): ReadonlyMap<string, Point> {
  return new Map(curves.flatMap(({ points, excluded }) => [...points, ...excluded]).map((one) => [one.resultId, one]))
}

/** From a result in the working of a range to the specimen it is of, where its readings stand. */
export function useResultLinks(curves: RangeView['curves']): LinkOfInput {
  const words = useWords()
  const { short } = useLaboratory()
  return useMemo(() => {
    const points = pointsByResult(curves)
    return ({ id }): CalculationLink | undefined => {
      const point = id === undefined ? undefined : points.get(id)
      return (
        point && {
          href: `/l/${short}/bench/tests/${point.testId}`,
          label: words('range.specimenName', { label: point.label, code: point.code }),
        }
      )
    }
  }, [curves, short, words])
}
