import fc from 'fast-check'
import { expect, test } from 'vitest'
import { batch } from '../methods/batch.ts'
import { loadedWheelSandAdhesion } from '../methods/loaded-wheel-sand-adhesion.ts'
import { wetTrackAbrasion1h } from '../methods/wet-track-abrasion.ts'
import type { MethodDeclaration, ReadingDeclaration } from './declaration.ts'
import { checkReading, type ReadingContext } from './reading-check.ts'

const declared = (method: MethodDeclaration, step: string, key: string) =>
  method.steps.find((item) => item.key === step)?.readings.find((item) => item.key === key) as ReadingDeclaration
const disc = declared(wetTrackAbrasion1h, 'weigh-before', 'mass')
const emulsion = declared(batch, 'weigh-components', 'emulsion')
const codes = (declaration: ReadingDeclaration, typed: string, context: ReadingContext = {}) => {
  const checked = checkReading(declaration, typed, context)
  return checked.ok ? checked.questions.map(({ code }) => code) : checked.code
}

test('a usual reading raises no question', () => {
  expect(checkReading(disc, '759,5 g')).toMatchObject({ ok: true, digits: '759.5', value: '759.5', questions: [] })
})

test('more than the instrument can show is refused with both numbers', () => {
  const capacity = { value: '6', unit: 'kg' }
  expect(checkReading(disc, '7595', { capacity })).toEqual({
    ok: false,
    code: 'over-capacity',
    message: 'Mass cannot be 7595 g: the instrument shows at most 6000 g.',
  })
  expect(codes(disc, '6000', { capacity })).toEqual(['outside-usual'])
})

test('outside the usual range is asked about and kept', () => {
  expect(codes(disc, '679.9')).toEqual(['outside-usual'])
  expect(codes(disc, '680')).toEqual([])
  expect(codes(disc, '860.0')).toEqual([])
  expect(codes(disc, '860.1')).toEqual(['outside-usual'])
})

test('digits finer than the instrument are asked about, not altered', () => {
  expect(codes(disc, '759.55')).toEqual(['finer-than-instrument'])
  expect(codes(disc, '759.50')).toEqual(['finer-than-instrument'])
  expect(codes(disc, '759.5', { resolution: '0.2' })).toEqual(['finer-than-instrument'])
  expect(codes(disc, '759.55', { resolution: '0.05' })).toEqual([])
})

test('a pour is off target beyond the tolerance, not at it', () => {
  const target = (value: string) => ({ target: value, tolerance: { value: '1', unit: '%' } })
  expect(codes(emulsion, '98.9', target('96'))).toEqual(['off-target'])
  expect(codes(emulsion, '30.3', target('30'))).toEqual([])
  expect(codes(emulsion, '29.7', target('30'))).toEqual([])
  const filler = declared(batch, 'weigh-components', 'filler')
  expect(codes(filler, '8.1', { target: '8', tolerance: { value: '0.1', unit: 'g' } })).toEqual([])
  expect(codes(filler, '7.89', { target: '8', tolerance: { value: '0.1', unit: 'g' } })).toEqual(['off-target'])
})

test('a choice is one of its keys, a text is not empty, a count is whole', () => {
  const sprayed = declared(loadedWheelSandAdhesion, 'condition', 'water-sprayed')
  expect(checkReading(sprayed, 'yes')).toEqual({ ok: true, value: 'yes', questions: [] })
  expect(codes(sprayed, 'perhaps')).toBe('not-a-choice')
  expect(codes(declared(loadedWheelSandAdhesion, 'cast', 'plate'), '  ')).toBe('empty')
  const tacky = declared(loadedWheelSandAdhesion, 'condition', 'tacky-from-cycle')
  expect(codes(tacky, '640')).toEqual([])
  expect(codes(tacky, '640.5')).toBe('not-whole')
  expect(codes(tacky, '150')).toEqual(['outside-usual'])
})

test('any text for any declared reading is kept with its digits or refused with a sentence', () => {
  const all = [batch, wetTrackAbrasion1h, loadedWheelSandAdhesion].flatMap(({ steps }) =>
    steps.flatMap(({ readings }) => readings),
  )
  fc.assert(
    fc.property(fc.constantFrom(...all), fc.oneof(fc.string(), fc.float().map(String)), (declaration, typed) => {
      const checked = checkReading(declaration, typed, { target: '8', tolerance: { value: '1', unit: '%' } })
      expect((checked.ok ? checked.value : checked.message).length).toBeGreaterThan(0)
    }),
  )
})
