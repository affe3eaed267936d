import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from './decimal.ts'
import { convertDigits } from './digit-conversion.ts'
import { readTypedNumber, type TypedNumberOptions, type TypedNumberRefusal } from './typed-number.ts'
import { units, type Unit } from './unit-table.ts'
import { convert } from './units.ts'

const mass = { unit: 'g', label: 'Mass' } as const
const plus = { ...mass, mayBeNegative: true } as const

describe('what is read', () => {
  const rows: readonly (readonly [text: string, options: TypedNumberOptions, digits: string, value?: string])[] = [
    ['812,4', mass, '812.4'],
    ['812.4', mass, '812.4'],
    ['812', mass, '812'],
    ['0', mass, '0'],
    ['812.40', mass, '812.40'],
    ['12,30', mass, '12.30'],
    [' 812.4 g', mass, '812.4'],
    ['812.4g', mass, '812.4'],
    ['812.4 G', mass, '812.4'],
    ['+812.4g', mass, '812.4'],
    ['+ 812.4 g', mass, '812.4'],
    ['812.4 gr', mass, '812.4'],
    ['812.4 grams', mass, '812.4'],
    ['.5', mass, '0.5'],
    [',5', mass, '0.5'],
    ['0.05', mass, '0.05'],
    ['ST,GS,+  0812.4 g', mass, '812.4'],
    ['ST,NT,+0812,4 g', mass, '812.4'],
    ['N     +    812.4 g', mass, '812.4'],
    ['Net 812.4 g', mass, '812.4'],
    ['G 812.4 g\r\n', mass, '812.4'],
    ['S S     812.40 g', mass, '812.40'],
    ['Gross: 00000.0 g', mass, '0.0'],
    ['N     -      0.4 g', plus, '-0.4'],
    ['-0.4', plus, '-0.4'],
    ['−0,4 g', plus, '-0.4'],
    ['1,234', mass, '1.234'],
    ['0.8124 kg', mass, '0.8124', '812.4'],
    ['1.7 lb', mass, '1.7', '771.107029'],
    ['812400 mg', mass, '812400', '812.4'],
    ['77 °F', { unit: '°C' }, '77', '25'],
    ['77 F', { unit: '°C' }, '77', '25'],
    ['25 °C', { unit: '°C' }, '25'],
    ['5 min', { unit: 's' }, '5', '300'],
    ['12.5 kg-cm', { unit: 'kg·cm' }, '12.5'],
    ['62.6 %', { unit: '%' }, '62.6'],
    ['12.0 %', { unit: '% of dry aggregate' }, '12.0'],
    ['538 g/m2', { unit: 'g/m²' }, '538'],
    ['640', { unit: 'count', wholeNumber: true }, '640'],
    ['2.04', {}, '2.04'],
  ]
  test.each(rows.map(([text, options, digits, value = digits]) => ({ text, options, digits, value })))(
    '$text',
    ({ text, options, digits, value }) => {
      const decimals = digits.split('.')[1]?.length ?? 0
      expect(readTypedNumber(text, options)).toMatchObject({ ok: true, digits, value, decimals })
    },
  )
})

describe('what is refused, and why', () => {
  const rows: readonly (readonly [text: string, options: TypedNumberOptions, code: TypedNumberRefusal])[] = [
    ['', mass, 'empty'],
    ['   ', mass, 'empty'],
    ['abc', mass, 'not-a-number'],
    ['812.4x', mass, 'wrong-unit'],
    ['81l.4', mass, 'wrong-unit'],
    ['x812.4', mass, 'not-a-number'],
    ['hello 812.4 g', mass, 'not-a-number'],
    ['8e2', mass, 'wrong-unit'],
    ['NaN', mass, 'not-a-number'],
    ['Infinity', mass, 'not-a-number'],
    ['0x1F', mass, 'wrong-unit'],
    ['1,234.5', mass, 'two-signs'],
    ['1.234,5', mass, 'two-signs'],
    ['812..4', mass, 'two-signs'],
    ['1,234,567', mass, 'two-signs'],
    ['1 234.5', mass, 'grouped'],
    ['812 .4', mass, 'grouped'],
    ["1'234", mass, 'wrong-unit'],
    ['812.', mass, 'unfinished'],
    ['.', mass, 'unfinished'],
    ['1'.repeat(13), mass, 'too-long'],
    [`0.${'3'.repeat(21)}`, mass, 'too-long'],
    ['812.4 mm', mass, 'wrong-unit'],
    ['812.4 °C', mass, 'wrong-unit'],
    ['50 g/ft2', { unit: 'g/m²' }, 'wrong-unit'],
    ['640 g', { unit: 'count', wholeNumber: true }, 'wrong-unit'],
    ['640.5', { unit: 'count', wholeNumber: true }, 'not-whole'],
    ['2.04 g', {}, 'wrong-unit'],
    ['-0.4', mass, 'negative'],
    ['--0.4', plus, 'not-a-number'],
    ['+-0.4', plus, 'not-a-number'],
    ['812.4-', plus, 'not-a-number'],
    ['812-4', plus, 'not-a-number'],
    ['US,NT,+ 0812.4 g', mass, 'not-steady'],
    ['OL', mass, 'overload'],
    ['٨١٢', mass, 'not-a-number'],
  ]
  test.each(rows.map(([text, options, code]) => ({ text, options, code })))(
    '$code: $text',
    ({ text, options, code }) => {
      expect(readTypedNumber(text, options)).toMatchObject({ ok: false, code })
    },
  )
})

test('the sentence of a refusal says what would be right', () => {
  expect(readTypedNumber('812.4x', mass)).toMatchObject({
    message: 'Mass must be a number in grams, like 812.4. “x” is not a unit known here.',
  })
  expect(readTypedNumber('812.4 mm', mass)).toMatchObject({
    message: 'Mass must be a number in grams, like 812.4. “mm” is a unit of length.',
  })
  expect(readTypedNumber('', { label: 'Residue', unit: '%' })).toMatchObject({
    message: 'Residue is not entered: type a number in per cent, like 12.5.',
  })
  expect(readTypedNumber('', { label: 'The temperature', unit: '°C', mayBeNegative: true })).toMatchObject({
    message: 'The temperature is not entered: type a number in degrees Celsius, like −0.4 or 24.6.',
  })
  expect(readTypedNumber('', mass)).toMatchObject({
    message: 'Mass is not entered: type a number in grams, like 812.4.',
  })
})

test('digits are never rounded, padded or cut', () => {
  fc.assert(
    fc.property(fc.stringMatching(/^(0|[1-9][0-9]{0,11})(\.[0-9]{1,20})?$/), (text) => {
      expect(readTypedNumber(text, mass)).toMatchObject({ ok: true, digits: text, value: text })
      expect(readTypedNumber(`${text.replace('.', ',')} g`, mass)).toMatchObject({
        ok: true,
        digits: text,
        value: text,
      })
    }),
  )
})

test('any text at all is either read as a finite number or refused with a sentence', () => {
  const alphabet = fc.constantFrom(...'0123456789.,+-− gkSTN%°CF/²\t:;e'.split(''))
  fc.assert(
    fc.property(fc.oneof(fc.string(), fc.string({ unit: alphabet })), (text) => {
      const read = readTypedNumber(text, { unit: 'g', mayBeNegative: true })
      if (read.ok) expect(read.value).toMatch(/^-?[0-9]+(\.[0-9]+)?$/)
      else expect(read.message.length).toBeGreaterThan(10)
    }),
  )
})

test('a conversion while typing gives the digits that the decimal conversion gives', () => {
  const all = Object.keys(units) as Unit[]
  const pairs = all.flatMap((from) =>
    all.filter((to) => units[from].dimension === units[to].dimension).map((to) => [from, to] as const),
  )
  const digits = fc.tuple(fc.integer({ min: -9_999_999, max: 9_999_999 }), fc.integer({ min: 0, max: 5 }))
  fc.assert(
    fc.property(fc.constantFrom(...pairs), digits, ([from, to], [whole, places]) => {
      const value = decimal(whole).div(decimal(10).pow(places))
      const one = decimal(convertDigits(value.toFixed(), from, to))
      const other = convert(value, from, to)
      expect(one.minus(other).abs().lte(other.abs().plus(100).times('1e-32'))).toBe(true)
    }),
  )
})
