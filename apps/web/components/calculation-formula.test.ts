import { expect, test } from 'vitest'
import { formulaOf } from './calculation-formula.ts'

const words = { mean: 'mean of', round: 'decimals kept:', input: 'as it stands' } as Record<string, string>

test.each([
  ['difference', ['W1', 'W2'], 'W1 − W2'],
  ['product', ['loss', 'F'], 'loss × F'],
  ['quotient', ['loss', 'A'], 'loss ÷ A'],
  ['mean', ['a', 'b', 'c'], 'mean of a, b, c'],
  ['interpolate', ['x', 'x0', 'y0', 'x1', 'y1'], 'y0 + (x − x0) × (y1 − y0) ÷ (x1 − x0)'],
  ['round', ['x', '1'], 'x, decimals kept: 1'],
  ['input', [], 'as it stands'],
] as const)('%s of %j reads %s', (op, operands, text) => {
  expect(formulaOf({ op, operands: [...operands] }, (operation) => words[operation] ?? '')).toBe(text)
})
