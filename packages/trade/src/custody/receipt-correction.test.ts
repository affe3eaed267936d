import fc from 'fast-check'
import { expect, test } from 'vitest'
import { decimal } from '../quantity/decimal.ts'
import { massLeft } from './drawn.ts'
import { correctReceipt } from './receipt-correction.ts'

const used = { drawnG: '900', sinceG: '400', piecesG: '1600', lostG: '0.5' }

test('what stands is what came less what left before the last act, which knows of the rest', () => {
  expect(correctReceipt('24800', used)).toEqual({ ok: true, standingG: '22699.5' })
  expect(correctReceipt('2500.5', used)).toEqual({ ok: true, standingG: '400' })
})
test('less than what left it already is refused, with both numbers', () => {
  expect(correctReceipt('2500.4', used)).toMatchObject({
    code: 'mass-not-kept',
    sentence: expect.stringMatching(
      /^2500\.4 g is less than the 2500\.5 g .* 900 g drawn by batches, 1600 g in pieces/,
    ),
  })
})
test('a mass that is not told is refused once pieces were split off', () => {
  expect(correctReceipt(null, used)).toMatchObject({ code: 'mass-unknown' })
  expect(correctReceipt(null, { ...used, piecesG: '0', lostG: '0' })).toEqual({ ok: true, standingG: null })
})
test('whatever left it, what is left after a correction is what came less all of it, and never less than nothing', () => {
  const grams = fc.integer({ min: 0, max: 50_000 })
  fc.assert(
    fc.property(grams, grams, grams, grams, grams, (received, before, since, pieces, lost) => {
      const outcome = correctReceipt(String(received), {
        drawnG: String(before + since),
        sinceG: String(since),
        piecesG: String(pieces),
        lostG: String(lost),
      })
      const left = received - before - since - pieces - lost
      expect(outcome.ok).toBe(left >= 0)
      if (outcome.ok) expect(decimal(massLeft(outcome.standingG, String(since))!).toNumber()).toBe(left)
    }),
  )
})
