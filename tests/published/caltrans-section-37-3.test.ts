import { residualOfEmulsion } from '@curebook/trade/design/residual-binder'
import { decimal } from '@curebook/trade/quantity/decimal'
import { round } from '@curebook/trade/quantity/rounding'
import { convert } from '@curebook/trade/quantity/units'
import { expect, test } from 'vitest'
import { alsoPublishedIn, limitOf } from './guideline-limits.ts'

// Source: Caltrans Standard Specifications, section 37-3 (slurry seal; 37-3.02B for the mix).
const source = 'Caltrans Standard Specifications, section 37-3'

test('12 to 18 % emulsion at 62 % residue is 7.44 to 11.16 % residual binder', () => {
  expect(residualOfEmulsion('12', '62')).toBe('7.44')
  expect(residualOfEmulsion('18', '62')).toBe('11.16')
})

test('810 g/m² for slurry seal is the 75 g/ft² of A105, printed to the nearest ten', () => {
  expect(alsoPublishedIn('issa-a105', 'abrasion-loss-1-hour', source)).toEqual({ value: '810', unit: 'g/m²' })
  const exact = convert(decimal(limitOf('issa-a105', 'abrasion-loss-1-hour').usValue ?? ''), 'g/ft²', 'g/m²')
  expect(round(exact.div(10).toFixed(), 0, 'half-even')).toBe('81')
})

test('200 kg·mm within an hour is the 20 kg·cm held for early traffic', () => {
  expect(alsoPublishedIn('issa-a105', 'cohesion-60-min', source)).toEqual({ value: '20', unit: 'kg·cm' })
  expect(limitOf('issa-a105', 'cohesion-60-min').value).toBe(decimal('200').div(10).toFixed())
})
