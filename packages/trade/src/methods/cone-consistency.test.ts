import { expect, test } from 'vitest'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import type { ObservedReading } from '../procedure/declaration.ts'
import { coneConsistency, coneConsistencyEn } from './cone-consistency.ts'

type Cone = {
  readonly water: string
  readonly flow: readonly string[]
  readonly aggregate?: string
  readonly segregation?: string
}

function series(cones: readonly Cone[], { moisture = '0', temperature = '25.0' } = {}, method = coneConsistency) {
  const reading = (step: string, key: string, value: string, repeat = 1): ObservedReading => ({
    id: `${step}-${key}-${repeat}`,
    step,
    key,
    repeat,
    value,
  })
  const readings = cones.flatMap(({ water, flow, aggregate = '400.0', segregation = 'none' }, index) => {
    const step = `cone-${index + 1}`
    return [
      reading(step, 'aggregate', aggregate),
      reading(step, 'water', water),
      reading(step, 'segregation', segregation),
      ...flow.map((value, place) => reading(step, 'flow', value, place + 1)),
    ]
  })
  return method.evaluate(
    [reading('prepare', 'moisture', moisture), reading('prepare', 'temperature', temperature), ...readings],
    { parameters: method.editions[0]!.parameters, factors: [], inputs: {} },
  )
}
const brief = ({ results, refusals }: ReturnType<typeof series>) => [
  ...results.map(({ key, value }) => [key, value]),
  ...refusals.map(({ key, code }) => [key, code]),
]

test('one cone gives the consistency of the mix: the mean of its four places', () => {
  expect(brief(series([{ water: '48.0', flow: ['23', '25', '27', '26'] }]))).toEqual([['consistency', '25.25']])
})

test('several waters, worked by hand: 20 mm at 10 %, 30 mm at 12 %, so 25 mm at 11 %', () => {
  const found = series([
    { water: '48.0', flow: ['29', '31', '30', '30'] },
    { water: '40.0', flow: ['19', '21', '20', '20'] },
    { water: '56.0', flow: ['40', '40', '40', '40'], segregation: 'fines-float' },
  ])
  expect(brief(found)).toEqual([
    ['consistency', '30'],
    ['water-for-consistency', '11'],
  ])
  // The cone that segregated is none of the two that the water lies between.
  for (const { calculation, value, findings } of found.results) {
    expect(checkCalculation(calculation, value)).toEqual([])
    expect(findings).toBeUndefined()
  }
})

test('moist aggregate is counted dry: 416.0 g at 4 % moisture is 400 g, and 40 g of water 10 %', () => {
  const cones = [
    { water: '40.0', aggregate: '416.0', flow: ['25', '25', '25', '25'] },
    { water: '48.0', aggregate: '416.0', flow: ['33', '33', '33', '33'] },
  ]
  const found = series(cones, { moisture: '4.0' })
  expect(brief(found)).toEqual([
    ['consistency', '25'],
    ['water-for-consistency', '10'],
  ])
  expect(found.results[0]?.findings).toBeUndefined()
  const dry = series(cones)
  expect(dry.results[0]?.findings).toEqual(['Cone 1 had dry aggregate of 416.00 g, where 400 ± 5 g is asked for.'])
})

test('the European tolerance is of the moist mass: 416.0 ± 5 g at 4 %, where the bulletin’s is of the dry one', () => {
  const findingsOf = (aggregate: string, method = coneConsistencyEn, moisture = '4.0') =>
    series([{ water: '40.0', aggregate, flow: ['25', '25', '25', '25'] }], { moisture, temperature: '23.0' }, method)
      .results[0]?.findings
  // 421.1 ÷ 1.04 = 404.9 g dry: inside 400 ± 5 g, and outside 416 ± 5 g.
  expect(findingsOf('421.1')).toEqual([
    'Cone 1 had aggregate with 4.0 % of moisture of 421.1 g, where 416 ± 5 g is asked for.',
  ])
  expect(findingsOf('421.1', coneConsistency)).toBeUndefined()
  for (const onTheEnd of ['411.0', '421.0']) expect(findingsOf(onTheEnd)).toBeUndefined()
  expect(findingsOf('410.9')).toHaveLength(1)
  expect(findingsOf('405.1', coneConsistencyEn, '0')).toEqual([
    'Cone 1 had dry aggregate of 405.10 g, where 400 ± 5 g is asked for.',
  ])
})

test('a flow outside what was poured is refused and says which way to go; nothing is extrapolated', () => {
  const wet = series([
    { water: '48.0', flow: ['30', '30', '30', '30'] },
    { water: '52.0', flow: ['35', '35', '35', '35'] },
  ])
  expect(wet.refusals).toMatchObject([
    {
      code: 'not-bracketed',
      text: 'The driest cone flows 30.0 mm at 12.0 % of water already, more than the 25 mm wanted: try less water.',
    },
  ])
  const stiff = series([
    { water: '32.0', flow: ['10', '10', '10', '10'] },
    { water: '36.0', flow: ['14', '14', '14', '14'] },
  ])
  expect(stiff.refusals[0]?.text).toContain('try more water')
  const twice = series([
    { water: '32.0', flow: ['10', '10', '10', '10'] },
    { water: '32.0', flow: ['30', '30', '30', '30'] },
  ])
  expect(twice.refusals[0]).toMatchObject({ code: 'inconsistent' })
  const unfinished = series([
    { water: '32.0', flow: ['10', '10', '10', '10'] },
    { water: '48.0', flow: ['30', '30', '30'] },
  ])
  expect(unfinished.refusals[0]).toMatchObject({ key: 'water-for-consistency', code: 'missing-reading' })
  expect(brief(unfinished)[0]).toEqual(['consistency', '10'])
})

test('segregation and temperature are told; the European form takes 18 to 28 °C', () => {
  const cones = [{ water: '48.0', flow: ['25', '25', '25', '25'], segregation: 'stones-stay' }]
  expect(series(cones, { temperature: '21.5' }).results[0]?.findings).toEqual([
    'The materials had 21.5 °C, where 25 ± 2 °C is asked for.',
    'Cone 1 segregated: 0.5 to 4 % of cement or hydrated lime may hold it together.',
  ])
  expect(series(cones, { temperature: '21.5' }, coneConsistencyEn).results[0]?.findings).toHaveLength(1)
})
