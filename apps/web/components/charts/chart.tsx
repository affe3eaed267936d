'use client'

import type { ChartModel, ChartPoint, ChartSeries } from '@curebook/contract/chart-model'
import dynamic from 'next/dynamic'
import { useEffect, useRef, useState } from 'react'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { Button } from '../button.tsx'
import { EmptyState } from '../empty-state.tsx'
import { ChartTable } from './chart-table.tsx'
import { ExcludedMark, KeyMark, LegendMark, Mark, MeanMark } from './chart-marks.tsx'
import styles from './chart.module.css'

const ChartDrawing = dynamic(() => import('./chart-drawing.tsx').then(({ ChartDrawing }) => ChartDrawing), {
  ssr: false,
})

/**
 * A chart with the sentence that says its message, its legend in reading order, details of a point by key, touch or
 * pointer that stay until dismissed, and its numbers as a table. `onOpenPoint` opens a point's result.
 */
export function Chart({
  model,
  height = 380,
  onOpenPoint,
}: {
  model: ChartModel
  height?: number
  onOpenPoint?: (pointKey: string) => void
}) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const [picked, setPicked] = useState<string>()
  const frame = useRef<HTMLDivElement>(null)
  const width = useWidth(frame)
  const rows = model.series.flatMap((series) =>
    [...series.points, ...series.excluded].map((point) => ({ series, point, key: `${series.key}/${point.key}` })),
  )
  const chosen = rows.find(({ key }) => key === picked)
  const say = (series: ChartSeries, point: ChartPoint) =>
    words(model.pointsAs === undefined ? 'common.chart.point' : 'common.chart.pointInOrder', {
      series: series.label,
      label: point.label,
      x: format.quantity(point.xDigits, model.x.unit, upTo(2, point.xDigits)),
      y: format.quantity(point.yDigits, model.y.unit, upTo(model.pointsAs?.yDecimals ?? 1, point.yDigits)),
      flags: point.flags.length === 0 ? '' : ` (${point.flags.join(', ')})`,
    })
  if (rows.length === 0) return <EmptyState title={words('common.chart.empty', { title: model.title })} />
  return (
    <figure className={styles.figure}>
      <figcaption className={styles.caption}>
        <h3>{model.title}</h3>
        <p>{model.sentence}</p>
      </figcaption>
      <ul className={styles.legend}>
        {model.series.map((series) => (
          <li key={series.key}>
            {series.drawnAs === 'points' ? (
              <KeyMark>
                <Mark mark={series.mark} x={20} y={9} colour={`var(--series-${series.tone})`} />
              </KeyMark>
            ) : (
              <LegendMark mark={series.mark} dash={series.dash} colour={`var(--series-${series.tone})`} />
            )}
            {words(series.drawnAs === undefined ? 'common.chart.legend' : 'common.chart.legendOfPoints', {
              series: series.label,
              n: series.points.length,
            })}
          </li>
        ))}
        <MarkKey series={model.series} />
      </ul>
      <div>
        <p className={styles.axisTitle}>{words('common.chart.axis', { label: model.y.label, unit: model.y.unit })}</p>
        <div ref={frame} className={styles.drawing} style={{ '--chart-height': `${height}px` } as React.CSSProperties}>
          {width > 0 && (
            <ChartDrawing
              model={model}
              width={width}
              height={height}
              picked={picked}
              onPick={setPicked}
              sayPoint={say}
            />
          )}
        </div>
        <p className={`${styles.axisTitle} ${styles.xTitle}`}>
          {words('common.chart.axis', { label: model.x.label, unit: model.x.unit })}
          {model.x.begins !== null && ` ${words('common.chart.axisBegins', { from: model.x.begins })}`}
        </p>
      </div>
      <div className={`${styles.details} no-print`} role="status">
        {chosen === undefined ? (
          <span className="quiet small">{words('common.chart.howToPick')}</span>
        ) : (
          <>
            <span>{say(chosen.series, chosen.point)}</span>
            {onOpenPoint !== undefined && (
              <Button size="small" onClick={() => onOpenPoint(chosen.point.key)}>
                {words('common.showCalculation')}
              </Button>
            )}
            <Button size="small" tone="quiet" onClick={() => setPicked(undefined)}>
              {words('common.close')}
            </Button>
          </>
        )}
      </div>
      <ChartTable model={model} rows={rows} />
    </figure>
  )
}

/** Decimals to show: what was read with fewer is not padded. */
function upTo(most: number, digits: string): number {
  return Math.min(most, digits.split('.')[1]?.length ?? 0)
}

/** What the marks mean that are alike for every curve; those that are not drawn are not named. */
function MarkKey({ series }: { series: readonly ChartSeries[] }) {
  const words = useWords()
  const ink = 'var(--ink)'
  return (
    <>
      {series.some(({ drawnAs }) => drawnAs === undefined) && (
        <li>
          <KeyMark>
            <MeanMark x={20} y={9} colour={ink} />
          </KeyMark>
          {words('common.chart.mean')}
        </li>
      )}
      {series.some(({ points }) => points.some(({ flags }) => flags.length > 0)) && (
        <li>
          <KeyMark>
            <Mark mark="circle" x={20} y={9} colour={ink} hollow />
          </KeyMark>
          {words('common.chart.hollow')}
        </li>
      )}
      {series.some(({ excluded }) => excluded.length > 0) && (
        <li>
          <KeyMark>
            <ExcludedMark mark="circle" x={20} y={9} colour={ink} />
          </KeyMark>
          {words('common.chart.excluded')}
        </li>
      )}
    </>
  )
}

function useWidth(frame: React.RefObject<HTMLDivElement | null>): number {
  const [width, setWidth] = useState(0)
  useEffect(() => {
    if (frame.current === null) return
    const watcher = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)))
    watcher.observe(frame.current)
    return () => watcher.disconnect()
  }, [frame])
  return width
}
