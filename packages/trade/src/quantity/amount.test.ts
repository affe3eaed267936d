import { expect, test } from 'vitest'
import { readAmount } from './amount.ts'

test('an amount is read with its own unit, a mass in grams as well', () => {
  expect(readAmount('24,8 kg')).toEqual({ ok: true, digits: '24.8', unit: 'kg', massG: '24800' })
  expect(readAmount(' 800.0 g ')).toEqual({ ok: true, digits: '800.0', unit: 'g', massG: '800' })
  expect(readAmount('55 lb')).toMatchObject({ unit: 'lb', massG: '24947.58035' })
  expect(readAmount('5 litres')).toEqual({ ok: true, digits: '5', unit: 'L', massG: null })
  expect(readAmount('1 gal')).toMatchObject({ unit: 'gal', massG: null })
})

test('what has no unit, another kind of unit or no value is refused with what would be right', () => {
  for (const text of ['24.8', '', '5 m²', '2 bags'])
    expect(readAmount(text, 'Container 2')).toMatchObject({
      ok: false,
      message: 'Container 2 is a mass or a volume with its unit, like 24.8 kg or 5 L.',
    })
  expect(readAmount('0 kg')).toMatchObject({ ok: false, message: 'The amount must be more than 0 kg.' })
  expect(readAmount('-3 kg').ok).toBe(false)
  expect(readAmount('24 800 g')).toMatchObject({ ok: false, message: expect.stringContaining('spaces') })
})
