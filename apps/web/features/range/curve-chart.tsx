'use client'

import { chartOfCurves } from '@curebook/contract/chart-model'
import type { Curve, RangeView } from '@curebook/contract/range'
import { useMemo } from 'react'
import { Chart } from '#components/charts/chart.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { bandOf, wordedProperty } from './curve-groups.ts'
import { useExcludedWords } from './excluded-words.ts'
import type { ShownResult } from './result-dialog.tsx'

/** The curves of one property: every point, the means joined, each limit on its line with its number. */
export function CurveChart({
  curves,
  view,
  onShow,
}: {
  curves: readonly Curve[]
  view: RangeView
  onShow: (shown: ShownResult) => void
}) {
  const words = useWords()
  const { quantity, digits, decimalSign } = useLaboratoryFormat()
  const excluded = useExcludedWords()
  const model = useMemo(() => {
    const limitOf = ({ limit }: Curve) => {
      if (limit === null) return words('range.noLimit')
      const value = quantity(limit.value, limit.unit)
      return limit.guarded === null
        ? value
        : words('range.acceptanceLimit', { value, held: quantity(limit.guarded.held, limit.unit) })
    }
    const crossed = (curve: Curve) => {
      const [mean] = curve.means
      if (curve.means.length === 1 && mean !== undefined)
        return words('range.chart.oneContent', {
          label: curve.label,
          content: digits(mean.emulsionPercent),
          mean: quantity(mean.y, curve.unit, 1),
          n: mean.n,
          limit: limitOf(curve),
        })
      return words(curve.crossing === null ? 'range.chart.notCrossed' : 'range.chart.crossed', {
        label: curve.label,
        at: curve.crossing === null ? '' : digits(curve.crossing, 3),
        limit: limitOf(curve),
      })
    }
    const nameOf = ({ soak, label }: Curve) => (soak === null ? label : words('range.soakOf', { soak }))
    const limitWords = (sense: Curve['sense'], value: string, of: string) => {
      const limit = words(`range.limitLine.${sense}`, { value })
      return of === '' ? limit : words('range.limitLineOf', { limit, of })
    }
    const [first] = curves
    const worded = wordedProperty(first?.property)
    const property = worded === undefined ? (first?.label ?? '') : words(`range.property.${worded}`)
    return chartOfCurves(
      curves.map((curve) => ({
        ...curve,
        limit: curve.limit && {
          ...curve.limit,
          label: limitWords(curve.sense, limitOf(curve), curves.length > 1 ? nameOf(curve) : ''),
        },
      })),
      bandOf(view, words('range.acceptable')),
      {
        title: property,
        sentence: curves.map(crossed).join(' '),
        xLabel: words('range.residual'),
        xUnit: view.basis,
        yLabel: property,
        decimalSign,
        excluded,
        held: ({ limit, sense }) =>
          words('range.heldLine', {
            limit: limitWords(sense, quantity(limit?.guarded?.held ?? '', limit?.unit ?? ''), ''),
          }),
      },
    )
  }, [curves, view, words, quantity, digits, decimalSign, excluded])
  const open = (testId: string) => {
    for (const curve of curves) {
      const point = [...curve.points, ...curve.excluded].find((one) => one.testId === testId)
      if (point !== undefined)
        onShow({
          resultId: point.resultId,
          testId: point.testId,
          label: `${curve.label}, ${point.label}`,
          code: point.code,
        })
    }
  }
  return <Chart model={model} onOpenPoint={open} />
}
