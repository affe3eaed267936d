import { residualOfEmulsion } from '@curebook/trade/design/residual-binder'
import { decimal } from '@curebook/trade/quantity/decimal'
import { round } from '@curebook/trade/quantity/rounding'
import { convert } from '@curebook/trade/quantity/units'
import { variantOf } from '@curebook/trade/specification/adopt'
import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import { expect, test } from 'vitest'
import { alsoPublishedIn, edgesOf, limitOf } from './guideline-limits.ts'

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

const own = 'caltrans-37-3-slurry'

test('its own table of the mix is held as it is printed: 30 mm, 810 g/m², 200 kg·mm, and no number for stripping', () => {
  expect(limitOf(own, 'consistency')).toMatchObject({ value: '30', unit: 'mm', sense: 'max', certainty: 'published' })
  expect(limitOf(own, 'abrasion-loss-1-hour')).toMatchObject({ value: '810', unit: 'g/m²', sense: 'max' })
  const cohesion = limitOf(own, 'cohesion-60-min')
  expect(
    decimal(cohesion.value ?? '')
      .times(10)
      .toFixed(),
  ).toBe('200')
  expect(limitOf(own, 'wet-stripping').value).toBeNull()
})

test('emulsion is held by aggregate type: 15 to 20, 12 to 18 and 10 to 15 % of dry aggregate', () => {
  const bands = ['Type I', 'Type II', 'Type III'].map((type) => {
    const builtIn = builtInSpecifications.find(({ key }) => key === own)
    const limit = builtIn && variantOf(builtIn, type, 'heavy')?.limits.find(({ key }) => key === 'emulsion-content')
    return `${limit?.value}-${limit?.upper} ${limit?.unit}`
  })
  expect(bands).toEqual(['15-20 % of dry aggregate', '12-18 % of dry aggregate', '10-15 % of dry aggregate'])
})

// 37-3.02A, under the table of the gradation: what is larger than the No. 50 sieve is crushed rock altogether. 37-3.02B(1),
// note b of the table of the mix: the mixing test passes at the highest air temperature expected while it is placed.
test('crushed aggregate and the temperature of the cup name the clause in which they were read', () => {
  expect(limitOf(own, 'crushed-particles')).toMatchObject({
    value: '100',
    sense: 'min',
    condition: 'of what is larger than the No. 50 sieve',
    clause: '37-3.02A, under the table',
    certainty: 'published',
  })
  const told = builtInSpecifications.find(({ key }) => key === own)?.information ?? []
  expect(told[0]).toMatchObject({
    label: 'Compatibility in the cup (ISSA TB-115)',
    words: expect.stringContaining('at the highest air temperature expected'),
    source: expect.stringContaining('37-3.02B(1), table of the mix, note b'),
  })
})

// 37-3.03B(1) and (2).
test('what is held on the site stands beside the mix: the asphalt ratio within 0.5 kg of 100 kg, traffic within an hour', () => {
  const told = builtInSpecifications.find(({ key }) => key === own)?.information ?? []
  const words = (label: string) => told.find((one) => one.label === label)?.words
  expect(words('Asphalt ratio on the site')).toMatch(/^within ± 0\.5 kg of asphalt for 100 kg of dry aggregate/)
  expect(words('On the road')).toMatch(/within 1 hour; .* 15 days$/)
})

// Table “Aggregate Gradation Requirements”, 37-3.02A: no row for type I at 3/8 in, none at all at No. 50 and No. 100.
test('the gradation is the one of its own table', () => {
  expect(edgesOf(own, 'Type I')).toEqual({
    '4.75': '100',
    '2.36': '90-100',
    '1.18': '60-90',
    '0.600': '40-65',
    '0.075': '10-20',
  })
  expect(edgesOf(own, 'Type II')).toEqual({
    '9.5': '100',
    '4.75': '94-100',
    '2.36': '65-90',
    '1.18': '40-70',
    '0.600': '25-50',
    '0.075': '5-15',
  })
  expect(edgesOf(own, 'Type III')).toEqual({
    '9.5': '100',
    '4.75': '70-90',
    '2.36': '45-70',
    '1.18': '28-50',
    '0.600': '19-34',
    '0.075': '5-15',
  })
})
