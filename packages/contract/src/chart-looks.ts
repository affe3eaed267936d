/** Shapes of a data point, told apart without colour: filled, or hollow when something must be known of the point. */
export const chartMarks = [
  'circle',
  'square',
  'triangle',
  'diamond',
  'triangle-down',
  'star',
  'cross',
  'bow-tie',
] as const
export type ChartMark = (typeof chartMarks)[number]

export const chartDashes = [
  'solid',
  'dashed',
  'dotted',
  'dash-dot',
  'long-dashed',
  'dash-dot-dot',
  'short-dashed',
] as const
export type ChartDash = (typeof chartDashes)[number]

export type ChartLook = {
  readonly mark: ChartMark
  readonly dash: ChartDash
  /** Which of the four series colours; mark and dash tell series apart without it. */
  readonly tone: 1 | 2 | 3 | 4
}

/** Eight marks and seven dashes have no common factor: the pair of the two repeats only after 56 series. */
export const distinctLooks = chartMarks.length * chartDashes.length

/** The look of the series at a place, from 0: each its own pair of mark and dash, as far as there are pairs. */
export function chartLook(place: number): ChartLook {
  return {
    mark: chartMarks[place % chartMarks.length]!,
    dash: chartDashes[place % chartDashes.length]!,
    tone: ((place % 4) + 1) as ChartLook['tone'],
  }
}

/** Corners of a mark round its middle, in sizes of the mark and with y downwards; null for a circle. */
export function markCorners(mark: ChartMark): readonly (readonly [x: number, y: number])[] | null {
  return corners[mark]
}

/** Five points with their dents, the first one up; the dents lie at 0.45 of the radius, so that the points stay open. */
const star = Array.from({ length: 10 }, (_, index) => {
  const [radius, angle] = [index % 2 === 0 ? 1.45 : 0.65, (Math.PI * index) / 5]
  return [radius * Math.sin(angle), -radius * Math.cos(angle)] as const
})

// Widths are chosen for the eye: shapes of about the same area.
const corners: Record<ChartMark, readonly (readonly [number, number])[] | null> = {
  circle: null,
  square: [
    [-0.95, -0.95],
    [0.95, -0.95],
    [0.95, 0.95],
    [-0.95, 0.95],
  ],
  triangle: [
    [0, -1.2],
    [1.15, 1],
    [-1.15, 1],
  ],
  diamond: [
    [0, -1.3],
    [1.3, 0],
    [0, 1.3],
    [-1.3, 0],
  ],
  'triangle-down': [
    [0, 1.2],
    [1.15, -1],
    [-1.15, -1],
  ],
  star,
  cross: [
    [-0.45, -1.25],
    [0.45, -1.25],
    [0.45, -0.45],
    [1.25, -0.45],
    [1.25, 0.45],
    [0.45, 0.45],
    [0.45, 1.25],
    [-0.45, 1.25],
    [-0.45, 0.45],
    [-1.25, 0.45],
    [-1.25, -0.45],
    [-0.45, -0.45],
  ],
  'bow-tie': [
    [-1.3, -1],
    [1.3, 1],
    [1.3, -1],
    [-1.3, 1],
  ],
}
