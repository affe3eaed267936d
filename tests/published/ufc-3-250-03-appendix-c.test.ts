import type { EstimateInput } from '@curebook/trade/estimates/estimate'
import { surfaceAreaEstimate, surfaceAreaFactors, surfaceAreaNumbers } from '@curebook/trade/estimates/surface-area'
import { decimal } from '@curebook/trade/quantity/decimal'
import { conversionFactor } from '@curebook/trade/quantity/units'
import { expect, test } from 'vitest'

// Source: UFC 3-250-03 (15 May 2001), appendix C: table C-1, equations E-2 and E-3, paragraphs C-2 and C-3. Its sample
// calculation (C-4) was seen up to the apparent specific gravity of 2.96 and no further: the binder content printed there
// is not checked.
const given = (value: string) => ({ value, source: 'test' })
const input: EstimateInput = {
  sieves: surfaceAreaFactors.map(({ size }) => ({ size, passing: '50' })),
  gradation: { source: 'test' },
  apparentGravity: given('2.96'),
  absorption: given('2.2'),
}
const line = (symbol: string, more: Partial<EstimateInput> = {}, system: 'us' | 'si' = 'us') =>
  surfaceAreaEstimate({ ...input, ...more }, system).contents[0]!.calculation.lines.find(
    (one) => one.symbol === symbol,
  )!.value
/** ft²/lb in m²/kg by the definitions of foot and pound: 0.204816. */
const perPound = conversionFactor('ft²', 'm²').div(conversionFactor('lb', 'kg'))

test('table C-1: 3/8 in to No. 200 in both units', () => {
  expect(surfaceAreaFactors.map(({ size, us, si }) => `${size} ${us} ${si}`)).toEqual([
    '9.5 0.02 0.00409',
    '4.75 0.02 0.00409',
    '2.36 0.04 0.00819',
    '1.18 0.08 0.01639',
    '0.600 0.14 0.02867',
    '0.300 0.30 0.06144',
    '0.150 0.60 0.12289',
    '0.075 1.60 0.32771',
  ])
})

test('the metric column is the US one × 0.204816 to within its last decimal', () => {
  expect(perPound.toFixed(6)).toBe('0.204816')
  for (const { us, si } of surfaceAreaFactors) expect(perPound.times(us).minus(si).abs().lt('0.00001')).toBe(true)
})

test('with an apparent specific gravity of 2.96 the corrected area is 0.895270 of the area', () => {
  expect(decimal(line('CSA')).div(line('SA')).toFixed(6)).toBe('0.895270')
})

test('the printed metric constant is ten times the one that the US formula and the units give', () => {
  const printed = decimal('0.99941')
  const fromUs = decimal(surfaceAreaNumbers.us.value).div(perPound)
  expect(fromUs.toFixed(4)).toBe('0.0999')
  expect(printed.div(fromUs).toFixed(2)).toBe('10.00')
  // 1 m²/kg × 1 µm = 1 mL of binder a kilogram, 0.1 % at a specific gravity of 1.
  expect(decimal(surfaceAreaNumbers.si.value).minus('0.1').abs().lt('0.0001')).toBe(true)
  expect(
    decimal(line('SAA', {}, 'si'))
      .div(line('SAA'))
      .minus(1)
      .abs()
      .lt('0.0005'),
  ).toBe(true)
})

test('the total is film and absorption; each per cent of further cement or lime adds 0.6 %', () => {
  expect(decimal(line('AR')).minus(line('SAA')).toFixed()).toBe('2.2')
  expect(
    decimal(line('AR', { extraFiller: given('1') }))
      .minus(line('AR'))
      .toFixed(),
  ).toBe('0.6')
})

test('the film is 8 microns, and a specific gravity of binder that is not known is 1.0', () => {
  expect([line('t'), line('SGA')]).toEqual(['8', '1.0'])
})
