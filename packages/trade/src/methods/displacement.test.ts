import { describe, expect, test } from 'vitest'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import type { ObservedReading } from '../procedure/declaration.ts'
import { loadedWheelDisplacement } from './displacement.ts'

const { parameters } = loadedWheelDisplacement.editions[0]!
const measured = {
  'thickness-over': 'strip',
  width: ['50.80', '53.34'],
  thickness: ['12.70', '12.00'],
}

function strip(
  changed: Partial<typeof measured> = {},
  optional: Readonly<Record<string, string>> = {},
  quarters: Readonly<Record<string, readonly string[]>> = {},
) {
  const reading = (step: string, key: string, value: string, repeat = 1): ObservedReading => ({
    id: `${step}-${key}-${repeat}`,
    step,
    key,
    repeat,
    value,
  })
  const all = { ...measured, ...changed }
  const pair = (key: string, [before, after]: readonly string[], repeat = 1) => [
    reading('measure-before', key, before!, repeat),
    reading('measure-after', key, after!, repeat),
  ]
  const found = loadedWheelDisplacement.evaluate(
    [
      reading('measure-before', 'thickness-over', all['thickness-over']),
      ...pair('width', all.width),
      ...pair('thickness', all.thickness),
      ...Object.entries(quarters).flatMap(([name, values]) => {
        const [key, repeat] = name.split('/') as [string, string]
        return pair(key, values, Number(repeat))
      }),
      ...Object.entries(optional).map(([key, value]) =>
        reading(key === 'plate-thickness' ? 'measure-before' : 'weigh-in-water', key, value),
      ),
    ],
    { parameters, factors: [], inputs: {} },
  )
  for (const { calculation, value } of found.results) expect(checkCalculation(calculation, value)).toEqual([])
  return {
    ...found,
    value: (key: string) => found.results.find((one) => one.key === key)?.value,
    findings: (key: string) => found.results.find((one) => one.key === key)?.findings,
    refusal: (key: string) => found.refusals.find((one) => one.key === key),
  }
}
const lateral = 'lateral-displacement'
const vertical = 'vertical-displacement'
const gravity = 'specific-gravity'

describe('displacement', () => {
  test('worked by hand: 50.80 to 53.34 mm is 5 %; 12.70 to 12.00 mm is 0.70 of 12.70', () => {
    const found = strip()
    expect(found.value(lateral)).toBe('5')
    expect(Number(found.value(vertical))).toBeCloseTo((100 * 0.7) / 12.7, 10)
    expect(found.refusals).toEqual([])
    expect(found.results.map(({ key }) => key)).toEqual([lateral, vertical])
  })

  test('the plate belongs to no strip: its thickness is the edition’s, or as measured', () => {
    const alone = strip().value(vertical)
    const over = { 'thickness-over': 'plate' }
    expect(strip({ ...over, thickness: ['13.31', '12.61'] }).value(vertical)).toBe(alone)
    expect(strip({ ...over, thickness: ['13.70', '13.00'] }, { 'plate-thickness': '1.00' }).value(vertical)).toBe(alone)
    // Left on, it would make a twentieth less of it.
    expect(Number(strip({ thickness: ['13.31', '12.61'] }).value(vertical))).toBeCloseTo((100 * 0.7) / 13.31, 10)
  })

  test('three places have a mean of their own, once all of them are read', () => {
    // 5 % at mid-length, 2 % and 6 % at the quarter points.
    const quarters = { 'width-quarter/1': ['50.00', '51.00'], 'width-quarter/2': ['51.00', '54.06'] }
    const found = strip({}, {}, quarters)
    expect(found.value(lateral)).toBe('5')
    expect(Number(found.value(`${lateral}-mean`))).toBeCloseTo(13 / 3, 10)
    expect(found.value(`${vertical}-mean`)).toBeUndefined()
    expect(strip({}, {}, { 'width-quarter/1': ['50.00', '51.00'] }).value(`${lateral}-mean`)).toBeUndefined()
  })

  test('a little less than nothing is the calliper; more is refused, each for itself', () => {
    const little = strip({ width: ['50.80', '50.70'], thickness: ['12.70', '12.75'] })
    expect(little.findings(lateral)).toEqual([
      'The strip is 0.20 % narrower than before; within what a calliper repeats, and used all the same.',
    ])
    expect(little.findings(vertical)).toEqual([expect.stringContaining('0.39 % thicker than before')])
    const much = strip({ width: ['53.34', '50.80'] })
    expect(much.refusal(lateral)).toMatchObject({ code: 'loss', detail: { loss: '4.8 %' } })
    expect(much.value(vertical)).toBeDefined()
    expect(strip({ thickness: ['12.00', '12.70'] }).refusal(vertical)).toMatchObject({ code: 'gain' })
  })

  test('more than usual is used, with a sentence', () => {
    const found = strip({ width: ['50.80', '58.00'], thickness: ['12.70', '9.90'] })
    expect(found.findings(lateral)).toEqual([expect.stringContaining('more than the usual 12 %')])
    expect(found.findings(vertical)).toEqual([expect.stringContaining('more than the usual 20 %')])
  })

  test('no width, and no more thickness than the plate has, are refused', () => {
    expect(strip({ width: ['0', '53.34'] }).refusal(lateral)).toMatchObject({ code: 'not-positive' })
    expect(strip({ 'thickness-over': 'plate', thickness: ['0.60', '0.60'] }).refusal(vertical)).toMatchObject({
      code: 'inconsistent',
    })
  })
})

describe('specific gravity', () => {
  const alone = { 'weighed-as': 'alone', 'in-air': '498.00', 'in-water': '253.88' }
  const plate = { 'plate-in-air': '148.60', 'plate-in-water': '129.67' }
  const onPlate = { 'weighed-as': 'plate', 'in-air': '646.60', 'in-water': '383.55' }

  test('is mass over lift in water: 498.00 over 244.12', () => {
    expect(Number(strip({}, alone).value(gravity))).toBeCloseTo(498 / 244.12, 10)
    expect(strip({}, alone).results.at(-1)).toMatchObject({ unit: '1', findings: [] })
  })
  test('with its plate comes to the same, once mass and lift of the plate are taken off', () => {
    expect(strip({}, { ...onPlate, ...plate }).value(gravity)).toBe(strip({}, alone).value(gravity))
    // Weighed with its plate and taken for the strip alone, it would be far too heavy.
    expect(strip({}, { ...onPlate, 'weighed-as': 'alone' }).findings(gravity)).toEqual([
      expect.stringContaining('2.46 is more than the usual 2.4'),
    ])
  })
  test('with its plate needs the plate alone', () => {
    expect(strip({}, onPlate).refusal(gravity)).toMatchObject({ code: 'missing-reading' })
    expect(strip({}, { ...onPlate, 'plate-in-air': '148.60' }).refusal(gravity)).toBeDefined()
  })
  test('of a porous strip counts the water drunk as its volume', () => {
    expect(Number(strip({}, { ...alone, 'surface-dry': '500.44' }).value(gravity))).toBeCloseTo(498 / 246.56, 10)
    expect(strip({}, { ...onPlate, ...plate, 'surface-dry': '649.04' }).value(gravity)).toBe(
      strip({}, { ...alone, 'surface-dry': '500.44' }).value(gravity),
    )
  })
  test('is none while the strip was not weighed in both, and waits with nothing', () => {
    for (const key of Object.keys(alone)) {
      const { [key]: _, ...rest } = alone as Record<string, string>
      expect(strip({}, rest).value(gravity)).toBeUndefined()
      expect(strip({}, rest).refusals).toEqual([])
    }
  })
  test.each([
    ['in air and in water exchanged', { ...alone, 'in-air': '253.88', 'in-water': '498.00' }, 'inconsistent'],
    ['surface dry lighter than dry', { ...alone, 'surface-dry': '497.00' }, 'inconsistent'],
    ['with the plate lighter than the plate', { ...onPlate, ...plate, 'in-air': '148.00' }, 'inconsistent'],
    ['nothing in water', { ...alone, 'in-water': '0' }, 'not-positive'],
  ])('%s is refused', (_, weighings, code) => {
    const found = strip({}, weighings)
    expect(found.refusal(gravity)).toMatchObject({ code })
    expect(found.value(lateral)).toBe('5')
  })
})
