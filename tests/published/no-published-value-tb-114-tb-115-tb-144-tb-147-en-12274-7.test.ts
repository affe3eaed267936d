import { classificationCompatibility } from '@curebook/trade/methods/classification-compatibility'
import { compatibilityCup } from '@curebook/trade/methods/compatibility-cup'
import { loadedWheelDisplacement } from '@curebook/trade/methods/displacement'
import { shakingAbrasion } from '@curebook/trade/methods/shaking-abrasion'
import { wetStripping } from '@curebook/trade/methods/wet-stripping'
import { expect, test } from 'vitest'

export const methods = [
  'wet-stripping',
  'compatibility-cup',
  'classification-compatibility',
  'loaded-wheel-displacement',
  'shaking-abrasion',
]

// No published worked value is at hand for these: no document that was read prints readings together with the result. TB-114
// and TB-115 are judged by eye; of TB-144 the rating table is from memory; of TB-147 an opening page was read, of EN 12274-7
// the scope. What can be checked is that their numbers agree with each other and that none says to be published that was not
// read. Constructed examples stand in the reference cases and do not count as an outside check.
const valueOf = (method: typeof wetStripping, key: string) => Number(method.editions[0]?.parameters[key]?.value)

test('turns of the tubes are three hours at their rate, and the soak six days', () => {
  const turns = valueOf(classificationCompatibility, 'tumble-turns')
  const hours = turns / valueOf(classificationCompatibility, 'tumble-rate') / 60
  expect(hours).toBe(3)
  expect(valueOf(classificationCompatibility, 'soak-earliest')).toBe(6 * 24)
})

test('the ends of the grades run one way and leave no gap, and the points fall by one', () => {
  const ends = (property: string) =>
    ['a', 'b', 'c', 'd'].map((grade) => valueOf(classificationCompatibility, `${property}-${grade}`))
  expect(ends('abrasion')).toEqual(ends('abrasion').toSorted((a, b) => a - b))
  for (const property of ['adhesion', 'integrity'])
    expect(ends(property)).toEqual(ends(property).toSorted((a, b) => b - a))
  expect(ends('points')).toEqual([4, 3, 2, 1])
})

test('a pill of its charge and diameter has the height that is asked about, at a density of 1.9 to 2.3', () => {
  const area = (Math.PI / 4) * (valueOf(classificationCompatibility, 'pill-diameter') / 10) ** 2
  const height = (density: number) => (10 * valueOf(classificationCompatibility, 'pill-charge')) / area / density
  const reading = classificationCompatibility.steps
    .flatMap(({ readings }) => readings)
    .find(({ key }) => key === 'height')
  expect(Number(reading?.plausible?.from)).toBeLessThan(height(2.2))
  expect(Number(reading?.plausible?.to)).toBeGreaterThan(height(1.9))
})

test('a plate of the size read, of steel of 7.85 g/cm³, weighs what is asked about, in air and in water', () => {
  const cm = (key: string) => valueOf(loadedWheelDisplacement, key) / 10
  const volume = cm('plate-thickness') * cm('plate-width') * cm('plate-length')
  const span = (key: string) =>
    loadedWheelDisplacement.steps.flatMap(({ readings }) => readings).find((one) => one.key === key)!.plausible!
  for (const [key, mass] of [
    ['plate-in-air', volume * 7.85],
    ['plate-in-water', volume * 6.85],
  ] as const) {
    expect(mass).toBeGreaterThan(Number(span(key).from))
    expect(mass).toBeLessThan(Number(span(key).to))
  }
})

test('72 to 77 °F is the room while the wheel runs, to a tenth of a degree', () => {
  const [target, tolerance] = ['', '-tolerance'].map((end) =>
    valueOf(loadedWheelDisplacement, `room-temperature${end}`),
  )
  expect(target! - tolerance!).toBeCloseTo((72 - 32) / 1.8, 1)
  expect(target! + tolerance!).toBeCloseTo((77 - 32) / 1.8, 1)
})

test('nothing that was not read says to be published', () => {
  const read = [wetStripping, compatibilityCup, classificationCompatibility, shakingAbrasion, loadedWheelDisplacement]
    .flatMap(({ key, editions }) => editions.map(({ parameters }) => ({ key, parameters })))
    .flatMap(({ key, parameters }) => Object.values(parameters).map((parameter) => ({ key, ...parameter })))
    .filter(({ certainty }) => certainty === 'published')
  expect(new Set(read.map(({ key, source }) => `${key}: ${source}`))).toEqual(
    new Set(['loaded-wheel-displacement: ISSA TB-147 (2005)']),
  )
})
