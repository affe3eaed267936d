import type { ReadingDeclaration, StepDeclaration } from '@curebook/trade/procedure/declaration'
import { describe, expect, test } from 'vitest'
import { ablest, contextOf, instrumentsOfStep, usualInstrument, type BenchInstrument } from './instrument-choice.ts'

const instrument = (id: string, kind: string, more: Partial<BenchInstrument> = {}): BenchInstrument => ({
  id,
  code: id.toUpperCase(),
  name: id,
  kind,
  capacity: null,
  capacityUnit: null,
  resolution: null,
  line: null,
  parts: [],
  loadCheck: null,
  fault: null,
  ...more,
})
const step = (equipment: StepDeclaration['equipment']) => ({ equipment }) as StepDeclaration
const mass: ReadingDeclaration = {
  key: 'emulsion',
  label: 'Emulsion',
  kind: 'number',
  unit: 'g',
  target: { component: 'emulsion', toleranceParameter: 'emulsion-tolerance' },
}

describe('which instrument an act names', () => {
  test('a machine whose factor makes the result must be named; an oven or a bath may be', () => {
    const all = [instrument('ov', 'oven'), instrument('wta', 'wet-track-machine')]
    expect(instrumentsOfStep(step(['wet-track-machine']), all)).toEqual({ fitting: [all[1]], needed: true })
    expect(instrumentsOfStep(step(['oven']), all)).toEqual({ fitting: [all[0]], needed: false })
    expect(instrumentsOfStep(step([]), all)).toEqual({ fitting: [], needed: false })
  })
  test('the one used last on this device is meant, or the only one there is', () => {
    const [one, other] = [instrument('a', 'balance'), instrument('b', 'balance')]
    expect(usualInstrument([one, other], 'b')).toBe(other)
    expect(usualInstrument([one, other], null)).toBeUndefined()
    expect(usualInstrument([one], null)).toBe(one)
  })
})

describe('what a reading is judged by', () => {
  test('capacity and step come from the instrument, the step in the unit of the reading', () => {
    const kilo = instrument('bal', 'balance', { capacity: '6', capacityUnit: 'kg', resolution: '0.0001' })
    expect(contextOf(mass, kilo, { targets: {}, parameters: {} })).toEqual({
      capacity: { value: '6', unit: 'kg' },
      resolution: '0.1',
    })
  })
  test('while no balance is named, the ablest says what cannot be shown, and none has a step', () => {
    const small = instrument('b2', 'balance', { capacity: '1200', capacityUnit: 'g', resolution: '0.01' })
    const large = instrument('b1', 'balance', { capacity: '6', capacityUnit: 'kg', resolution: '0.0001' })
    expect(ablest([small, large], 'g')).toEqual({ ...large, resolution: null })
    expect(ablest([small, instrument('b3', 'balance')], 'g')).toBeUndefined()
    expect(ablest([], 'g')).toBeUndefined()
  })
  test('target comes from the batch sheet, tolerance from the edition', () => {
    const parameters = { 'emulsion-tolerance': { value: '1', unit: '%', label: '', source: '' } }
    expect(contextOf(mass, undefined, { targets: { emulsion: '96.0' }, parameters })).toEqual({
      target: '96.0',
      tolerance: { value: '1', unit: '%' },
    })
  })
})
