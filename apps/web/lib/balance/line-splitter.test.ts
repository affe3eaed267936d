import fc from 'fast-check'
import { expect, test } from 'vitest'
import { createLineSplitter } from './line-splitter.ts'

function linesOf(...pieces: readonly string[]): string[] {
  const lines: string[] = []
  const take = createLineSplitter((line) => lines.push(line))
  for (const piece of pieces) take(piece)
  return lines
}

test.each([
  ['CR', '812.4 g\r773.7 g\r'],
  ['LF', '812.4 g\n773.7 g\n'],
  ['CRLF', '812.4 g\r\n773.7 g\r\n'],
  ['LFCR, and empty lines between', '812.4 g\n\r\n\r773.7 g\n\r'],
])('lines ended by %s', (_, sent) => {
  expect(linesOf(sent)).toEqual(['812.4 g', '773.7 g'])
})

test('wherever the pieces part, the lines are the same', () => {
  const sent = 'ST,GS,+  0812.4 g\r\nUS,GS,+  0773.7 g\r\n'
  fc.assert(
    fc.property(fc.uniqueArray(fc.nat(sent.length)), (cuts) => {
      const at = [0, ...cuts.toSorted((a, b) => a - b), sent.length]
      const pieces = at.slice(1).map((end, index) => sent.slice(at[index], end))
      expect(linesOf(...pieces)).toEqual(['ST,GS,+  0812.4 g', 'US,GS,+  0773.7 g'])
    }),
  )
})

test('what has not ended is no line yet', () => {
  expect(linesOf('812.')).toEqual([])
  expect(linesOf('812.', '4 g', '\r')).toEqual(['812.4 g'])
})

test('noise without an end is dropped up to the next end, and the line behind it is read', () => {
  expect(linesOf('x'.repeat(5000), 'y\r812.4 g\r')).toEqual(['812.4 g'])
})
