import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import { expect, it } from 'vitest'
import { unheldLimits } from './unheld-limits.ts'

const found = (methodKey: string, resultKey: string, unit: string | null) => ({ methodKey, resultKey, unit })

it('gives a line to what was found and is not named, one for each property', () => {
  const rules = { limits: builtInSpecifications.find(({ key }) => key.startsWith('issa-a143'))!.limits }
  const lines = unheldLimits(
    [
      found('cohesion', 'cohesion-30-min', 'kg·cm'),
      found('cohesion', 'set-time', 'min'),
      found('cohesion-en', 'set-time', 'min'),
      found('wet-track-abrasion-3d', 'loss-per-area', 'g/m²'),
      found('loaded-wheel-displacement', 'lateral-displacement-mean', '%'),
    ],
    rules,
    builtInMethods,
  )
  // The limit of 30 min is the specification's own; the mean of three places answers no property.
  expect(lines.map(({ key, label, unit, value }) => [key, label, unit, value])).toEqual([
    ['unheld:abrasion-loss:3-day', 'Loss per area, 3-day soak', 'g/m²', null],
    ['unheld:set-time', 'Set time', 'min', null],
  ])
})

it('names two properties that share their words apart', () => {
  const rules = { limits: builtInSpecifications.find(({ key }) => key.startsWith('issa-a143'))!.limits }
  const [line] = unheldLimits([found('trial-mix-at-temperature', 'mix-time', 's')], rules, builtInMethods)
  expect(line).toMatchObject({ label: 'Mix time: Hand trial mix, at a temperature of the job' })
})

it('judges no class that nobody asks for', () => {
  const [line] = unheldLimits([found('compatibility-cup', 'verdict', null)], { limits: [] }, builtInMethods)
  expect(line).toMatchObject({ sense: 'declared', value: null })
})
