import { type ChartDash, type ChartMark, markCorners } from '@curebook/contract/chart-looks'
import type { ReactNode } from 'react'

export const dashes: Record<ChartDash, string | undefined> = {
  solid: undefined,
  dashed: '8 4',
  dotted: '2 4',
  'dash-dot': '9 4 2 4',
  'long-dashed': '15 4',
  'dash-dot-dot': '9 3 2 3 2 3',
  'short-dashed': '4 3',
}

/** A data point, its shape told apart without colour; hollow when something must be known about it. */
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
  const corners = markCorners(mark)
  if (corners === null) return <circle cx={x} cy={y} r={size} {...paint} />
  const points = corners.map(([across, down]) => `${x + across * size},${y + down * size}`).join(' ')
  return <polygon points={points} {...paint} />
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
