import { expect, test } from 'vitest'
import { isHandOverCode, takeOverPlace } from './hand-over-code.ts'

test.each(['7KDM-4QX9', '7kdm4qx9', ' 7KDM 4QX9 '])('%s hands work over', (typed) => {
  expect(isHandOverCode(typed)).toBe(true)
  expect(takeOverPlace('north', typed)).toBe('/l/north/bench/take-over#7KDM4QX9')
})

test.each(['7KD2', '7KD2.B', '12-1', 'OV-1', '7KDM-4QX', '7KDM-4QX91', '7KDL-4QX9', ''])(
  '%s is another code',
  (typed) => expect(isHandOverCode(typed)).toBe(false),
)
