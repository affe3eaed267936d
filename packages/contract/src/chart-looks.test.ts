import { expect, test } from 'vitest'
import { chartLook, distinctLooks, markCorners } from './chart-looks.ts'

const pairs = Array.from({ length: distinctLooks }, (_, place) => chartLook(place))

test('no two of 56 series share both mark and dash, and no two neighbours share either', () => {
  expect(distinctLooks).toBe(56)
  expect(new Set(pairs.map(({ mark, dash }) => `${mark} ${dash}`)).size).toBe(56)
  pairs.slice(1).forEach(({ mark, dash }, index) => {
    expect(mark).not.toBe(pairs[index]!.mark)
    expect(dash).not.toBe(pairs[index]!.dash)
  })
})

test('every mark but the circle has corners of its own', () => {
  const shapes = new Set(pairs.map(({ mark }) => mark))
  const drawn = [...shapes].map((mark) => JSON.stringify(markCorners(mark)))
  expect(new Set(drawn).size).toBe(shapes.size)
  expect(drawn.filter((one) => one === 'null')).toHaveLength(1)
})
