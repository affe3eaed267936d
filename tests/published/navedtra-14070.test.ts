import { emulsionByFractions, fractionFactors } from '@curebook/trade/estimates/emulsion-by-fractions'
import { expect, test } from 'vitest'

// Source: NAVEDTRA 14070, page 17-22: P = 0.05 A + 0.1 B + 0.5 C, per cent of emulsion by mass of graded aggregate. What A, B and
// C stand for was not in the text that was seen (from memory: retained on No. 8, between, passing No. 200), and it prints no
// worked value; only the factors are checked.
test('0.05, 0.1 and 0.5 for each per cent of the three fractions', () => {
  expect(fractionFactors.map(({ symbol, value }) => `${value} ${symbol}`)).toEqual(['0.05 A', '0.1 B', '0.5 C'])
  const of = (coarse: string, fine: string) =>
    emulsionByFractions({
      sieves: [
        { size: '2.36', passing: coarse },
        { size: '0.075', passing: fine },
      ],
      gradation: { source: 'test' },
    }).contents[0]!.value
  expect([of('0', '0'), of('100', '0'), of('100', '100')]).toEqual(['5', '10', '50'])
})
