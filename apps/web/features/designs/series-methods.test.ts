import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import type { Method } from '@curebook/contract/methods'
import { expect, test } from 'vitest'
import { seriesMethods } from './series-methods.ts'

const methods = builtInMethods.filter(
  ({ place, madeFrom }) => place === 'series' && madeFrom === 'batch',
) as unknown as readonly Method[]
const limitsOf = (key: string) => builtInSpecifications.find((one) => one.key === key)!.limits
const rowsFor = (limits: Parameters<typeof seriesMethods>[1]) =>
  new Map(seriesMethods(methods, limits).map(({ method, chosen }) => [method.key, chosen]))

test('a series of slurry or micro-surfacing begins with what is asked for, and is never offered the soak of a mastic surface', () => {
  const micro = rowsFor(limitsOf('issa-a143-2010'))
  for (const key of ['wet-track-abrasion-1h', 'wet-track-abrasion-6d', 'loaded-wheel-sand-adhesion'])
    expect(micro.get(key), key).toBe(true)
  const slurry = rowsFor(limitsOf('issa-a105'))
  expect(slurry.get('wet-track-abrasion-1h')).toBe(true)
  expect(slurry.get('wet-track-abrasion-6d')).toBe(false)
  for (const rows of [micro, slurry]) {
    expect(rows.has('wet-track-abrasion-3d')).toBe(false)
    expect(rows.get('wet-track-abrasion-en')).toBe(false)
  }
})

test('what the specification asks for is chosen: wearing by EN 12273, a 3-day soak by a limit that names it', () => {
  expect(rowsFor(limitsOf('en-12273-2008')).get('wet-track-abrasion-en')).toBe(true)
  const mastic = rowsFor([{ property: 'abrasion-loss', soak: '3-day' }])
  expect(mastic.get('wet-track-abrasion-3d')).toBe(true)
})
