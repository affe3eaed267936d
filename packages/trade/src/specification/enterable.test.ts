import { describe, expect, test } from 'vitest'
import { builtInMethods } from '../methods/catalogue.ts'
import { builtInSpecifications } from './built-in.ts'
import { inLimitUnit, isEntered, unitsFor } from './enterable.ts'

describe('a result is typed only for what no method here computes', () => {
  const [micro] = builtInSpecifications
  test('mix time and lateral displacement are; abrasion and adhesion are computed', () => {
    const entered = micro!.limits.filter((limit) => isEntered(limit, builtInMethods)).map(({ key }) => key)
    expect(entered).toContain('lateral-displacement')
    expect(entered).toContain('wet-stripping')
    expect(entered).not.toContain('abrasion-loss-1-hour')
    expect(entered).not.toContain('abrasion-loss-6-day')
    expect(entered).not.toContain('sand-adhesion')
  })
  test('a soak that no method answers may be typed though another soak is computed', () => {
    expect(isEntered({ property: 'abrasion-loss', soak: '14-day' }, builtInMethods)).toBe(true)
  })
})

describe('units', () => {
  test('convert where the relation is exact', () => {
    expect(unitsFor('kg·cm')).toEqual(['kg·cm', 'kg·mm', 'N·m'])
    // 0.0980665 N·m each, by standard gravity: 1.96133 ÷ 0.0980665 = 20
    expect(inLimitUnit('1.96133', 'N·m', 'kg·cm')).toBe('20')
    expect(inLimitUnit('2.5', 'min', 's')).toBe('150')
    expect(inLimitUnit('171', 's', 's')).toBe('171')
  })
  test('a mass per area, a share with a basis and points do not', () => {
    expect(unitsFor('g/m²')).toEqual(['g/m²'])
    expect(inLimitUnit('50', 'g/ft²', 'g/m²')).toBeUndefined()
    expect(inLimitUnit('5', '% of dry aggregate', '%')).toBeUndefined()
    expect(unitsFor('points')).toEqual(['points'])
    expect(inLimitUnit('5', 'mm', '%')).toBeUndefined()
  })
})
