import { describe, expect, it } from 'vitest'
import { builtInMethods, methodByKey } from '../methods/catalogue.ts'
import { runLengthOf, runPassed } from './run-length.ts'

const run = (methodKey: string, stepKey: string) => {
  const method = methodByKey(builtInMethods, methodKey)!
  return runLengthOf(
    method.steps.find(({ key }) => key === stepKey)!,
    method.editions[0]!.parameters,
  )
}

describe('the length of a run', () => {
  it('is the edition’s: 300 s of abrasion, 1000 and 100 cycles at 44 a minute', () => {
    expect(run('wet-track-abrasion-1h', 'abrade')).toEqual({ seconds: 300, cycles: null })
    // 1000 / 44 = 22.727 min = 22 min 44 s; 100 / 44 = 2.273 min = 2 min 16 s.
    const condition = run('loaded-wheel-sand-adhesion', 'condition')
    expect(condition?.cycles).toEqual({ total: 1000, perMinute: 44 })
    expect(condition?.seconds).toBeCloseTo(22 * 60 + 43.64, 2)
    expect(run('loaded-wheel-sand-adhesion', 'sand')?.seconds).toBeCloseTo(2 * 60 + 16.36, 2)
  })
  it('is none where nothing runs, or the edition does not say', () => {
    expect(run('wet-track-abrasion-1h', 'soak')).toBeNull()
    expect(runLengthOf({ runSecondsParameter: 'run-seconds' }, {})).toBeNull()
    expect(runLengthOf({ runCycles: { totalParameter: 'a', perMinuteParameter: 'b' } }, {})).toBeNull()
  })
})

describe('what has passed of a run', () => {
  const wheel = { seconds: 1363.64, cycles: { total: 1000, perMinute: 44 } }
  it('is counted in whole seconds and cycles, and stops at the whole', () => {
    expect(runPassed(wheel, 60_999)).toEqual({ seconds: 60, left: 1304, over: 0, cycles: 44 })
    expect(runPassed(wheel, 1_400_000)).toEqual({ seconds: 1400, left: 0, over: 36, cycles: 1000 })
    expect(runPassed({ seconds: 300, cycles: null }, -5)).toEqual({ seconds: 0, left: 300, over: 0, cycles: null })
  })
})
