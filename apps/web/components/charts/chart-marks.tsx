import type { ChartDash, ChartMark } from '@curebook/contract/chart-model'
import type { ReactNode } from 'react'

export const dashes: Record<ChartDash, string | undefined> = {
  solid: undefined,
  dashed: '8 4',
  dotted: '2 4',
  'dash-dot': '9 4 2 4',
}

/** A data point: four shapes, told apart without colour; hollow when something must be known about it. */
export function Mark({
  mark,
  x,
  y,
  colour,
  hollow = false,
  size = 5,
}: {
  mark: ChartMark
  x: number
  y: number
  colour: string
  hollow?: boolean
  size?: number
}) {
  const paint = { fill: hollow ? 'var(--panel)' : colour, stroke: colour, strokeWidth: 1.75 }
  if (mark === 'circle') return <circle cx={x} cy={y} r={size} {...paint} />
  if (mark === 'square')
    return <rect x={x - size + 0.5} y={y - size + 0.5} width={size * 2 - 1} height={size * 2 - 1} {...paint} />
  if (mark === 'triangle') return <path d={`M${x} ${y - size}l${size} ${size * 1.8}h${-2 * size}z`} {...paint} />
  return (
    <path
      d={`M${x} ${y - size - 1}l${size + 1} ${size + 1}l${-size - 1} ${size + 1}l${-size - 1} ${-size - 1}z`}
      {...paint}
    />
  )
}

/** A result that does not count: the mark of its curve, hollow and crossed out. */
export function ExcludedMark({ x, y, ...look }: { mark: ChartMark; x: number; y: number; colour: string }) {
  const arm = 8
  return (
    <>
      <Mark x={x} y={y} {...look} hollow />
      <path
        d={`M${x - arm} ${y - arm}l${2 * arm} ${2 * arm}M${x - arm} ${y + arm}l${2 * arm} ${-2 * arm}`}
        stroke={look.colour}
        strokeWidth={1.75}
      />
    </>
  )
}

/** The mean of a content: a short bar that stands out from the line through it. */
export function MeanMark({ x, y, colour }: { x: number; y: number; colour: string }) {
  return <rect x={x - 9} y={y - 2.5} width={18} height={5} fill="var(--panel)" stroke={colour} strokeWidth={1.5} />
}

/** Two strokes across an axis that does not begin at zero, near its beginning. */
export function BreakMark({ x, y }: { x: number; y: number }) {
  return (
    <g data-axis-break="" aria-hidden="true">
      <path d={`M${x + 8} ${y}h7`} stroke="var(--panel)" strokeWidth={4} />
      <path d={`M${x + 6} ${y + 6}l4 -12M${x + 13} ${y + 6}l4 -12`} stroke="var(--ink)" strokeWidth={1.5} />
    </g>
  )
}

/** One mark in the list beside the series. */
export function KeyMark({ children }: { children: ReactNode }) {
  return (
    <svg viewBox="0 0 40 18" width="40" height="18" aria-hidden="true" focusable="false">
      {children}
    </svg>
  )
}

/** A stroke with its mark, for the list of series. */
export function LegendMark({ mark, dash, colour }: { mark: ChartMark; dash: ChartDash; colour: string }) {
  return (
    <svg viewBox="0 0 40 16" width="40" height="16" aria-hidden="true" focusable="false">
      <path d="M0 8h40" stroke={colour} strokeWidth="2" strokeDasharray={dashes[dash]} />
      <Mark mark={mark} x={20} y={8} colour={colour} />
    </svg>
  )
}
