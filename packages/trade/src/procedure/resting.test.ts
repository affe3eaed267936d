import { describe, expect, test } from 'vitest'
import { loadedWheelSandAdhesion } from '../methods/loaded-wheel-sand-adhesion.ts'
import { wetTrackAbrasion1h } from '../methods/wet-track-abrasion.ts'
import { readingsRestingOn } from './resting.ts'

const weighed = (method: typeof wetTrackAbrasion1h, step: string) =>
  readingsRestingOn(method, step)
    .filter(({ key }) => key === 'mass')
    .map((one) => one.step)

describe('the weighing that rests on a step', () => {
  test('of a disc is the next one', () => {
    expect(weighed(wetTrackAbrasion1h, 'cure')).toEqual(['weigh-before'])
    for (const step of ['soak', 'abrade', 'dry-back'])
      expect(weighed(wetTrackAbrasion1h, step)).toEqual(['weigh-after'])
  })
  test('of a strip is the next one, over steps in which nothing must be read', () => {
    for (const step of ['cure', 'condition', 'dry'])
      expect(weighed(loadedWheelSandAdhesion, step)).toEqual(['weigh-before'])
    expect(weighed(loadedWheelSandAdhesion, 'sand')).toEqual(['weigh-after'])
  })
  test('is none of a step that the method does not have', () => {
    expect(readingsRestingOn(wetTrackAbrasion1h, 'bake')).toEqual([])
  })
  test('is the step’s own, where one must be read in it', () => {
    expect(readingsRestingOn(wetTrackAbrasion1h, 'weigh-before').map(({ step }) => step)).toEqual(['weigh-before'])
  })
})
