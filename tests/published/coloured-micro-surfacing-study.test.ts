import { adoptSpecification } from '@curebook/trade/specification/adopt'
import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import { judge } from '@curebook/trade/specification/judge'
import { decimal } from '@curebook/trade/quantity/decimal'
import { outsideBand } from '@curebook/trade/design/range-end'
import { expect, test } from 'vitest'

// Source: study of coloured micro-surfacing, Universidade Estadual de Maringá: two mixes with extracted residual binder of
// 5.3 and 9.2 % and mix times of 380 and 150 s. Compared with the A143 band and with that of IRC:SP:100-2014.
const builtIn = builtInSpecifications.find(({ key }) => key === 'issa-a143-2010')

function specification(from?: string) {
  const adoption = { name: 'study', aggregateType: 'Type II', traffic: 'heavy', changes: [] } as const
  const residualBand = from ? { from, to: '10.5', reason: 'IRC:SP:100-2014' } : undefined
  const outcome = builtIn && adoptSpecification(builtIn, { ...adoption, residualBand })
  if (!outcome?.ok) throw new Error('The guideline values cannot be adopted.')
  return outcome.specification
}

test('both mix times, 380 and 150 s, meet the least of 120 s', () => {
  const limit = specification().limits.find(({ key }) => key === 'mix-time')
  for (const value of ['380', '150']) expect(limit && judge(limit, { value, unit: 's' }).verdict).toBe('pass')
})

test('5.3 % residual binder lies below both bands, 9.2 % inside both', () => {
  for (const { residualBand } of [specification(), specification('6.5')]) {
    const isOutside = (x: string) => outsideBand({ means: [{ x }] }, residualBand)
    expect(isOutside('5.3')).toBe(true)
    expect(decimal('5.3').lt(residualBand.from ?? '')).toBe(true)
    expect(isOutside('9.2')).toBe(false)
  }
})
