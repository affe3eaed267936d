import fc from 'fast-check'
import { expect, test } from 'vitest'
import { decimal } from './decimal.ts'
import { conversionFactor, convert, UnitMismatchError } from './units.ts'
import { isUnit, unitAliases, unitOfSpelling, units, type Unit } from './unit-table.ts'

const all = Object.keys(units) as Unit[]
const pairs = all.flatMap((from) =>
  all.filter((to) => units[from].dimension === units[to].dimension).map((to) => [from, to] as const),
)

test('a value converted there and back is the same to 30 digits', () => {
  const digits = fc.integer({ min: -999_999_999, max: 999_999_999 })
  fc.assert(
    fc.property(fc.constantFrom(...pairs), digits, fc.integer({ min: 0, max: 6 }), ([from, to], whole, places) => {
      const value = decimal(whole).div(decimal(10).pow(places))
      const back = convert(convert(value, from, to), to, from)
      return back.minus(value).abs().lte('1e-24')
    }),
  )
})

test('the exact definitions hold', () => {
  expect(convert(decimal('1'), 'lb', 'g').toString()).toBe('453.59237')
  expect(convert(decimal('1'), 'ft²', 'm²').toString()).toBe('0.09290304')
  expect(convert(decimal('12'), 'in', 'mm').toString()).toBe('304.8')
  expect(convert(decimal('1'), 'gal', 'L').toString()).toBe(
    decimal('231').times('2.54').times('2.54').times('2.54').div(1000).toString(),
  )
  expect(convert(decimal('12'), 'kg·cm', 'N·m').toString()).toBe('1.176798')
  expect(convert(decimal('144'), 'h', 'd').toString()).toBe('6')
  expect(conversionFactor('ft²', 'cm²').toString()).toBe('929.0304')
  expect(conversionFactor('g/ft²', 'g/m²').toSignificantDigits(6).toString()).toBe('10.7639')
  expect(convert(decimal('50'), 'g/ft²', 'g/m²').toDecimalPlaces(2).toString()).toBe('538.2')
})

test('temperatures convert with their offset and never by a factor alone', () => {
  expect(convert(decimal('77'), '°F', '°C').toString()).toBe('25')
  expect(convert(decimal('140'), '°F', '°C').toString()).toBe('60')
  expect(convert(decimal('60'), '°C', '°F').toString()).toBe('140')
  expect(() => conversionFactor('°F', '°C')).toThrow(UnitMismatchError)
})

test('units of different kinds, and shares of different bases, are refused with a typed error', () => {
  expect(() => convert(decimal('1'), 'g', 'mm')).toThrow(UnitMismatchError)
  expect(() => conversionFactor('g/m²', 'g')).toThrow(UnitMismatchError)
  expect(() => convert(decimal('1'), '% of dry aggregate', '% of total dry mix')).toThrow(UnitMismatchError)
})

test('typed spellings are known and every alias leads to a unit', () => {
  expect(unitOfSpelling('gr')).toBe('g')
  expect(unitOfSpelling(' Grams ')).toBe('g')
  expect(unitOfSpelling('g/m2')).toBe('g/m²')
  expect(unitOfSpelling('kg-cm')).toBe('kg·cm')
  expect(unitOfSpelling('°c')).toBe('°C')
  expect(unitOfSpelling('stone')).toBeUndefined()
  expect(unitOfSpelling('constructor')).toBeUndefined()
  for (const unit of Object.values(unitAliases)) expect(isUnit(unit)).toBe(true)
  expect(isUnit('gr')).toBe(false)
})
