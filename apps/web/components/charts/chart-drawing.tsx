'use client'

import type { ChartModel, ChartPoint, ChartSeries } from '@curebook/contract/chart-model'
import { Fragment } from 'react'
import {
  CartesianGrid,
  ComposedChart,
  Line,
  ReferenceArea,
  ReferenceLine,
  Scatter,
  usePlotArea,
  XAxis,
  YAxis,
} from 'recharts'
import { EndLabels } from './end-labels.tsx'
import { roomForNames } from './spread-labels.ts'
import { BreakMark, dashes, ExcludedMark, Mark, MeanMark } from './chart-marks.tsx'
import styles from './chart.module.css'

export type DrawingProps = {
  readonly model: ChartModel
  readonly width: number
  readonly height: number
  readonly picked: string | undefined
  readonly onPick: (key: string | undefined) => void
  /** A point in words, for those who hear it. */
  readonly sayPoint: (series: ChartSeries, point: ChartPoint) => string
}

/** Below so many pixels a limit has its short name on its line; the sentence over the chart has the whole one. */
const narrow = 560

/** The model on screen. Its means are joined by straight lines, and nothing is drawn beyond the first and last. */
export function ChartDrawing({ model, width, height, picked, onPick, sayPoint }: DrawingProps) {
  return (
    <ComposedChart
      width={width}
      height={height}
      margin={{ top: 12, right: 24 + roomForNames(model), bottom: 4, left: 4 }}
      accessibilityLayer={false}
    >
      <CartesianGrid stroke="var(--rule)" />
      <XAxis
        type="number"
        dataKey="x"
        domain={[...model.x.domain]}
        ticks={model.x.ticks.map(({ at }) => at)}
        tickFormatter={(at: number) => labelAt(model.x.ticks, at)}
        stroke="var(--edge)"
        allowDataOverflow
      />
      <YAxis
        type="number"
        dataKey="y"
        domain={[...model.y.domain]}
        ticks={model.y.ticks.map(({ at }) => at)}
        tickFormatter={(at: number) => labelAt(model.y.ticks, at)}
        stroke="var(--edge)"
        width={56}
        allowDataOverflow
      />
      {model.bands.map((band) => (
        <ReferenceArea
          key={band.key}
          x1={band.from}
          x2={band.to}
          fill="var(--settled)"
          fillOpacity={0.14}
          stroke="var(--settled)"
          strokeDasharray="2 3"
          label={{ value: band.label, position: 'insideTop' }}
        />
      ))}
      {model.limits.map((limit) => (
        <ReferenceLine
          key={limit.key}
          {...(limit.axis === 'y' ? { y: limit.at } : { x: limit.at })}
          stroke="var(--lost)"
          strokeWidth={1.75}
          strokeDasharray={dashes[limit.dash]}
          label={{
            value: width < narrow ? (limit.short ?? limit.label) : limit.label,
            position: `inside${limit.labelSide === 'below' ? 'Top' : 'Bottom'}${limit.labelAt === 'end' ? 'Right' : 'Left'}`,
          }}
        />
      ))}
      {model.series.map((series) => (
        <Fragment key={series.key}>
          {/* A line of one point would be drawn as a stray mark. */}
          {series.means.length > 1 && (
            <Line
              data={[...series.means]}
              dataKey="y"
              stroke={colourOf(series)}
              strokeWidth={2}
              strokeDasharray={dashes[series.dash]}
              dot={false}
              activeDot={false}
              isAnimationActive={false}
              type="linear"
              legendType="none"
            />
          )}
          <Scatter
            data={series.drawnAs === undefined ? [...series.means] : []}
            isAnimationActive={false}
            legendType="none"
            shape={(drawn: unknown) => {
              const { cx = 0, cy = 0 } = drawn as Drawn
              return <MeanMark x={cx} y={cy} colour={colourOf(series)} />
            }}
          />
          <Scatter
            data={[...series.points, ...series.excluded]}
            isAnimationActive={false}
            legendType="none"
            shape={(drawn: unknown) => (
              <Point drawn={drawn as Drawn} series={series} picked={picked} onPick={onPick} sayPoint={sayPoint} />
            )}
          />
        </Fragment>
      ))}
      <EndLabels model={model} />
      {model.x.begins !== null && <AxisBreak />}
    </ComposedChart>
  )
}

/** At the beginning of the x axis, wherever the drawing has put it. */
function AxisBreak() {
  const area = usePlotArea()
  return area === undefined ? null : <BreakMark x={area.x} y={area.y + area.height} />
}

type Drawn = { readonly cx?: number; readonly cy?: number; readonly payload: ChartPoint }

function Point({
  drawn,
  series,
  picked,
  onPick,
  sayPoint,
}: { drawn: Drawn; series: ChartSeries } & Pick<DrawingProps, 'picked' | 'onPick' | 'sayPoint'>) {
  const { cx = 0, cy = 0, payload } = drawn
  const key = `${series.key}/${payload.key}`
  return (
    <g
      tabIndex={0}
      role="button"
      aria-pressed={picked === key}
      aria-label={sayPoint(series, payload)}
      className={picked === key ? styles.picked : undefined}
      onClick={() => onPick(picked === key ? undefined : key)}
      onFocus={() => onPick(key)}
      onKeyDown={(event) => event.key === 'Escape' && onPick(undefined)}
    >
      <circle cx={cx} cy={cy} r={13} fill="transparent" />
      <circle cx={cx} cy={cy} r={9.5} className={styles.ring} />
      {series.excluded.some(({ key: of }) => of === payload.key) ? (
        <ExcludedMark mark={series.mark} x={cx} y={cy} colour={colourOf(series)} />
      ) : (
        <Mark mark={series.mark} x={cx} y={cy} colour={colourOf(series)} hollow={payload.flags.length > 0} />
      )}
    </g>
  )
}

function colourOf({ tone }: ChartSeries): string {
  return `var(--series-${tone})`
}
function labelAt(ticks: ChartModel['x']['ticks'], at: number): string {
  return ticks.find((tick) => tick.at === at)?.label ?? String(at)
}
