import { expect, test } from 'vitest'
import { checkFactor, factorOfArea, nearestClass, openingArea } from './machine-factor.ts'
import { areaFactorClasses, wetTrackAbrasion1h } from './wet-track-abrasion.ts'

const parameters = wetTrackAbrasion1h.editions[0]!.parameters

test('a factor that agrees with the measured area within two per cent is not asked about', () => {
  expect(checkFactor('32.9', 'g/m²', '303.8')).toMatchObject({ warns: false })
  expect(checkFactor('3.06', 'g/ft²', '303.8')).toMatchObject({ warns: false })
  expect(checkFactor('3.48', 'g/ft²', '342.8')).toMatchObject({ warns: true })
})

test('two per cent is still right, a hair more is asked about', () => {
  expect(checkFactor('102', 'g/m²', '100')).toEqual({ expected: '100', differencePercent: '2', warns: false })
  expect(checkFactor('102.01', 'g/m²', '100')).toMatchObject({ differencePercent: '2.01', warns: true })
  expect(checkFactor('98', 'g/m²', '100')).toMatchObject({ differencePercent: '-2', warns: false })
})

test('an area or factor that is not more than zero is refused', () => {
  expect(() => checkFactor('32.9', 'g/m²', '0')).toThrow(expect.objectContaining({ code: 'not-positive' }))
  expect(() => checkFactor('-1', 'g/m²', '303.8')).toThrow(expect.objectContaining({ code: 'not-positive' }))
})

test('the opening of a sand frame of 38.1 × 355.6 mm gives 73.81 g/m² and 6.857 g/ft² for each gram', () => {
  const area = openingArea('38.1', '355.6')
  expect(area).toBe('135.4836')
  expect(factorOfArea(area, 'g/m²')).toMatch(/^73\.8096/)
  expect(factorOfArea(area, 'g/ft²')).toMatch(/^6\.85714/)
})

test('the nearest class of the table is named, and whether the factor is far from it', () => {
  expect(nearestClass('32.9', 'g/m²', areaFactorClasses, parameters)).toMatchObject({
    class: { key: 'b' },
    warns: false,
  })
  expect(nearestClass('2.71', 'g/ft²', areaFactorClasses, parameters)).toMatchObject({ class: { key: 'a-modified' } })
  expect(nearestClass('34.5', 'g/m²', areaFactorClasses, parameters)).toMatchObject({
    class: { key: 'b' },
    warns: true,
  })
})

test('the two published factors of a class agree within 0.2 per cent of each other', () => {
  for (const { factorParameters } of areaFactorClasses) {
    const perM2 = Number(parameters[factorParameters['g/m²']]!.value)
    const perFt2 = Number(parameters[factorParameters['g/ft²']]!.value)
    expect(Math.abs((perM2 * 0.09290304) / perFt2 - 1)).toBeLessThan(0.002)
  }
})
