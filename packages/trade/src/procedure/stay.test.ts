import { describe, expect, it } from 'vitest'
import { loadedWheelSandAdhesion } from '../methods/loaded-wheel-sand-adhesion.ts'
import { builtInMethods, methodByKey } from '../methods/catalogue.ts'
import type { RecordedEvent } from './progress.ts'
import { staysOf } from './stay.ts'

const abrasion = methodByKey(builtInMethods, 'wet-track-abrasion-1h')!
const at = (step: string, act: 'start' | 'end', time: string): RecordedEvent => ({
  step,
  act,
  at: `2026-03-05T${time}:00.000Z`,
})

describe('a stay in an oven or bath', () => {
  it('lasts from in to out', () => {
    expect(staysOf(abrasion, 'oven', [at('cast', 'start', '09:00'), at('cure', 'start', '10:45')])).toEqual([
      { step: 'cure', from: '2026-03-05T10:45:00.000Z', until: null },
    ])
    expect(staysOf(abrasion, 'oven', [at('cure', 'start', '10:45'), at('cure', 'end', '12:00')])).toEqual([
      { step: 'cure', from: '2026-03-05T10:45:00.000Z', until: '2026-03-05T12:00:00.000Z' },
    ])
  })
  it('of a soak ends with the first act of a later step', () => {
    const soak = [at('cure', 'end', '08:35'), at('soak', 'start', '10:20')]
    expect(staysOf(abrasion, 'bath', soak)[0]!.until).toBeNull()
    const run = [...soak, at('dry-back', 'start', '11:40'), at('abrade', 'start', '11:22')]
    expect(staysOf(abrasion, 'bath', run)[0]!.until).toBe('2026-03-05T11:22:00.000Z')
  })
  it('is counted once a step: a strip stands in the oven twice, and in no bath', () => {
    const events = [at('cure', 'start', '08:00'), at('cure', 'end', '20:30'), at('dry', 'start', '22:00')]
    expect(staysOf(loadedWheelSandAdhesion, 'oven', events).map(({ step }) => step)).toEqual(['cure', 'dry'])
    expect(staysOf(loadedWheelSandAdhesion, 'bath', events)).toEqual([])
  })
})
