import { describe, expect, it } from 'vitest'
import { builtInMethods, methodByKey } from '../methods/catalogue.ts'
import { massRuleOf, massState } from './constant-mass.ts'

const ruleOf = (key: string) => massRuleOf(methodByKey(builtInMethods, key)!.editions[0]!.parameters)
const disc = ruleOf('wet-track-abrasion-6d')!
const at = (time: string, value: string) => ({ at: `2026-03-13T${time}:00.000Z`, value })

describe('constant mass of a check specimen', () => {
  it('is judged by the edition: 0.2 g for discs, 0.1 g for strips, an hour apart', () => {
    expect(disc).toMatchObject({ limit: '0.2', intervalMs: 3_600_000 })
    expect(ruleOf('loaded-wheel-sand-adhesion')).toMatchObject({ limit: '0.1', intervalMs: 3_600_000 })
    expect(ruleOf('batch')).toBeNull()
  })
  it('needs two weighings an hour apart', () => {
    expect(massState([], disc).state).toBe('one')
    expect(massState([at('07:00', '735.0')], disc).state).toBe('one')
    expect(massState([at('07:00', '735.0'), at('07:59', '735.0')], disc).state).toBe('one')
  })
  it('is not there while the last hour took more than the limit, and is when it took no more', () => {
    const first = [at('07:00', '735.0'), at('08:00', '734.4')]
    expect(massState(first, disc)).toMatchObject({ state: 'changing', change: '0.6' })
    expect(massState([...first, at('09:00', '734.3')], disc)).toMatchObject({ state: 'constant', change: '0.1' })
    expect(massState([at('07:30', '805.3'), at('08:30', '805.1')], disc)).toMatchObject({
      state: 'constant',
      change: '0.2',
    })
  })
  it('takes the latest weighing that is early enough, in whatever order they are told', () => {
    const told = [at('09:30', '734.3'), at('07:00', '736.0'), at('09:00', '734.3'), at('08:30', '734.6')]
    expect(massState(told, disc)).toMatchObject({ state: 'changing', change: '0.3', from: { value: '734.6' } })
  })
})
