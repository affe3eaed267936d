import { expect, test } from 'vitest'
import { heightForNames, roomForNames, spreadLabels } from './spread-labels.ts'

const frame = { from: 0, to: 100, gap: 10 }

test('labels that have room stand where they belong, in the order given', () => {
  expect(spreadLabels([50, 10, 90], frame)).toEqual([50, 10, 90])
  expect(spreadLabels([], frame)).toEqual([])
})

test('what would stand on another is moved, and never beyond the frame', () => {
  expect(spreadLabels([20, 20, 20], frame)).toEqual([20, 30, 40])
  expect(spreadLabels([98, 99, 40], frame)).toEqual([90, 100, 40])
})

test('more than fit share the room alike', () => {
  const places = spreadLabels(
    Array.from({ length: 21 }, () => 50),
    frame,
  )
  expect(places).toEqual(Array.from({ length: 21 }, (_, index) => index * 5))
})

test('a chart is high enough for all names of its lines, and wide enough for the longest', () => {
  const series = Array.from({ length: 21 }, (_, index) => ({ tag: `K7M${index}` }))
  expect(heightForNames({ series })).toBeGreaterThanOrEqual(21 * 15)
  expect(roomForNames({ series })).toBeGreaterThan(5 * 8)
  expect(roomForNames({ series: [{}] })).toBe(0)
})
