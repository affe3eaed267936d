import { describe, expect, it } from 'vitest'
import { builtInMethods, methodByKey } from '../methods/catalogue.ts'
import { excursionsOf, gapsOf, heldCondition, isNoFarther, isOutside } from './condition-log.ts'

const abrasion = methodByKey(builtInMethods, 'wet-track-abrasion-6d')!
const { parameters } = abrasion.editions[0]!
const stepOf = (key: string) => abrasion.steps.find((step) => step.key === key)!
const bath = heldCondition(stepOf('soak'), parameters)!
const at = (time: string, value: string) => ({ at: `2026-03-08T${time}:00.000Z`, value })

describe('what a stay holds', () => {
  it('is the edition’s: oven 60 ± 3 °C, bath 25 ± 1 °C', () => {
    expect(bath).toEqual({ target: '25', tolerance: '1', unit: '°C', low: '24', high: '26' })
    expect(heldCondition(stepOf('cure'), parameters)).toMatchObject({ low: '57', high: '63' })
    expect(heldCondition(stepOf('weigh-before'), parameters)).toBeNull()
  })
  it('includes its limits', () => {
    expect(['23.9', '24', '26.0', '26.1'].map((value) => isOutside(value, bath))).toEqual([true, false, false, true])
  })
})

describe('a time out of limits', () => {
  it('runs from the first value outside to the first inside again, with its farthest value', () => {
    const log = [
      at('10:00', '25.4'),
      at('10:30', '26.2'),
      at('11:00', '27.4'),
      at('11:30', '26.1'),
      at('12:00', '25.9'),
    ]
    expect(excursionsOf(log, bath)).toEqual([{ from: log[1]!.at, until: log[4]!.at, peak: '27.4', ended: true }])
    expect(excursionsOf(log.toReversed(), bath)).toEqual(excursionsOf(log, bath))
  })
  it('is not over while no later value says so', () => {
    expect(excursionsOf([at('10:00', '25.4'), at('10:30', '23.2')], bath)).toMatchObject([
      { peak: '23.2', ended: false },
    ])
  })
  it('ends with the last value before a gap: of what nobody measured nothing is said', () => {
    const log = [at('10:00', '26.4'), at('10:30', '26.6'), at('13:00', '26.2'), at('13:10', '25.0')]
    expect(excursionsOf(log, bath).map(({ from, until }) => [from, until])).toEqual([
      [log[0]!.at, log[1]!.at],
      [log[2]!.at, log[3]!.at],
    ])
  })
  it('is none in a log that stays inside', () => {
    expect(excursionsOf([at('10:00', '24'), at('10:30', '26')], bath)).toEqual([])
  })
})

describe('a gap', () => {
  it('is more than two hours without a value, at the beginning and the end too', () => {
    const from = '2026-03-08T06:00:00.000Z'
    const until = '2026-03-08T18:00:00.000Z'
    expect(gapsOf([], from, until)).toEqual([{ from, until }])
    expect(gapsOf([at('07:00', '25'), at('09:00', '25'), at('12:30', '25'), at('16:30', '25')], from, until)).toEqual([
      { from: '2026-03-08T09:00:00.000Z', until: '2026-03-08T12:30:00.000Z' },
      { from: '2026-03-08T12:30:00.000Z', until: '2026-03-08T16:30:00.000Z' },
    ])
  })
})

describe('a value beside one that was judged', () => {
  it('adds nothing on the same side and no farther outside', () => {
    expect(isNoFarther('26.4', '26.9', bath)).toBe(true)
    expect(isNoFarther('26.9', '26.9', bath)).toBe(true)
    expect(isNoFarther('27.0', '26.9', bath)).toBe(false)
  })
  it('on the other side is another thing, however near', () => {
    expect(isNoFarther('23.9', '26.9', bath)).toBe(false)
    expect(isNoFarther('23.5', '23.1', bath)).toBe(true)
  })
})
