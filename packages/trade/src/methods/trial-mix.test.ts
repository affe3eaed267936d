import { expect, test } from 'vitest'
import type { ObservedReading } from '../procedure/declaration.ts'
import { trialMix, trialMixAtTemperature } from './trial-mix.ts'

const steps: Readonly<Record<string, string>> = { coated: 'look', 'clear-water': 'blot' }
function cup(values: Readonly<Record<string, string>>, method = trialMix) {
  const readings = Object.entries({
    temperature: '25.1',
    consistency: 'creamy',
    break: 'gradual',
    coated: '100',
    ...values,
  })
  return method.evaluate(
    readings.map(([key, value]): ObservedReading => ({ id: key, step: steps[key] ?? 'stir', key, repeat: 1, value })),
    { parameters: method.editions[0]!.parameters, factors: [], inputs: {} },
  )
}

test('mix time, temperature, coating and clear water are as they were read', () => {
  const { results, refusals } = cup({ 'mix-time': '172', 'clear-water': '18' })
  expect(results.map(({ key, value, unit, findings }) => [key, value, unit, findings])).toEqual([
    ['mix-time', '172', 's', undefined],
    ['temperature', '25.1', '°C', undefined],
    ['coated', '100', '%', undefined],
    ['clear-water', '18', 'min', undefined],
  ])
  expect(refusals).toEqual([])
})

test('clear water is seen later: the mix time stands without it', () => {
  expect(cup({ 'mix-time': '172' }).results.map(({ key }) => key)).toEqual(['mix-time', 'temperature', 'coated'])
})

test('at another temperature than that of the limit the mix time is refused, and what else was seen stands', () => {
  const hot = cup({ 'mix-time': '118', temperature: '35.2', 'clear-water': '9' })
  expect(hot.refusals).toMatchObject([
    {
      key: 'mix-time',
      code: 'outside-conditions',
      text: 'The mix was stirred at 35.2 °C, where 25 ± 1 °C is asked for. Its time stays on record: for another temperature use the hand trial mix at a temperature of the job.',
    },
  ])
  expect(hot.results.map(({ key }) => key)).toEqual(['temperature', 'coated', 'clear-water'])
  expect(cup({ 'mix-time': '170', temperature: '26.0' }).refusals).toEqual([])
  // At a temperature of the job there is none to hold it against, and it answers a property of its own.
  expect(cup({ 'mix-time': '118', temperature: '35.2' }, trialMixAtTemperature).results[0]).toMatchObject({
    value: '118',
  })
  expect(trialMixAtTemperature.answers.map(({ property }) => property)).not.toContain('mix-time')
})

test.each([trialMix, trialMixAtTemperature])(
  '$key: a mix that never broke has no mix time, only a least one',
  (method) => {
    const open = cup({ 'mix-time': '600', break: 'not-broken' }, method)
    expect(open.refusals).toMatchObject([
      {
        key: 'mix-time',
        code: 'not-bracketed',
        text: 'Longer than 600 s: the mix had not broken when stirring stopped. Stir another cup until it breaks.',
      },
    ])
    expect(open.results.map(({ key }) => key)).toEqual(['temperature', 'coated'])
  },
)

test('what cannot be is refused with a sentence, and the other results stand', () => {
  const { results, refusals } = cup({ 'mix-time': '0', coated: '104' })
  expect(refusals.map(({ key, code }) => [key, code])).toEqual([
    ['mix-time', 'not-positive'],
    ['coated', 'inconsistent'],
  ])
  expect(results.map(({ key }) => key)).toEqual(['temperature'])
})
