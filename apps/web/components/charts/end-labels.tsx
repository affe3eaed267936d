import type { ChartModel } from '@curebook/contract/chart-model'
import { usePlotArea } from 'recharts'
import { awayOfNames as away, heightOfName as line, spreadLabels } from './spread-labels.ts'
import styles from './chart.module.css'

/** Each line's name beside its last point, joined to it by a fine stroke: no line is found by colour alone. */
export function EndLabels({ model }: { model: ChartModel }) {
  const area = usePlotArea()
  if (area === undefined) return null
  const along = ([low, high]: readonly [number, number], value: number) => (value - low) / (high - low)
  const named = model.series.flatMap(({ key, tag, points }) => {
    const last = points.toSorted((a, b) => a.x - b.x).at(-1)
    if (tag === undefined || last === undefined) return []
    const x = area.x + along(model.x.domain, last.x) * area.width
    return [{ key, tag, x, y: area.y + (1 - along(model.y.domain, last.y)) * area.height }]
  })
  const heights = named.map(({ y }) => y)
  const places = spreadLabels(heights, { from: area.y + line / 2, to: area.y + area.height - line / 2, gap: line })
  const right = area.x + area.width
  return (
    <g aria-hidden="true">
      {named.map(({ key, tag, x, y }, index) => (
        <g key={key} data-end-label={tag}>
          <path className={styles.leader} d={`M${x + 7} ${y}L${right + away - 3} ${places[index]}`} />
          <text x={right + away} y={(places[index] ?? y) + 4.5}>
            {tag}
          </text>
        </g>
      ))}
    </g>
  )
}
