import { loadedWheelSandAdhesion } from '@curebook/trade/methods/loaded-wheel-sand-adhesion'
import { wetTrackAbrasion1h } from '@curebook/trade/methods/wet-track-abrasion'
import { expect, test } from 'vitest'
import { factorWarnings } from './factor-warnings.ts'

const abrasion = wetTrackAbrasion1h.editions[0]!.parameters
const wheel = loadedWheelSandAdhesion.editions[0]!.parameters

test('a factor that agrees with its area and a class is not asked about', () => {
  expect(factorWarnings({ key: 'area', value: '32.9', unit: 'g/m²', measuredAreaCm2: '303.8' }, abrasion)).toEqual([])
  expect(factorWarnings({ key: 'area', value: '3.06', unit: 'g/ft²', measuredAreaCm2: '303.8' }, abrasion)).toEqual([])
  expect(factorWarnings({ key: 'frame', value: '73.81', unit: 'g/m²', measuredAreaCm2: '135.48' }, wheel)).toEqual([])
})

test('a factor off its measured area is asked about, with both figures', () => {
  const [warning, ...others] = factorWarnings(
    { key: 'area', value: '32.9', unit: 'g/m²', measuredAreaCm2: '330' },
    abrasion,
  )
  expect(warning).toContain('8.6 % off what the measured area of 330 cm² gives, 30.30 g/m²')
  expect(others).toEqual([])
})

test('a factor off every class of the table is asked about, naming the nearest', () => {
  expect(factorWarnings({ key: 'area', value: '34', unit: 'g/m²', measuredAreaCm2: null }, abrasion)).toEqual([
    expect.stringContaining('nearest class of the table, B'),
  ])
})

test('a frame factor off the opening of the edition is asked about', () => {
  expect(factorWarnings({ key: 'frame', value: '70', unit: 'g/m²', measuredAreaCm2: null }, wheel)).toEqual([
    expect.stringContaining('38.1 × 355.6 mm'),
  ])
})

test('factors of two classes on one machine are asked about, though each agrees with its own class', () => {
  const factor = { key: 'area', value: '32.9', unit: 'g/m²', measuredAreaCm2: null } as const
  expect(factorWarnings(factor, abrasion, { value: '3.06', unit: 'g/ft²' })).toEqual([])
  expect(factorWarnings(factor, abrasion, { value: '2.78', unit: 'g/ft²' })).toEqual([
    expect.stringMatching(/nearest to class .*B.*2\.78 g\/ft² to class .*C.*one class/),
  ])
})
