import { expect, test } from 'vitest'
import { wetTrackAbrasion1h } from '../methods/wet-track-abrasion.ts'
import { loadedWheelSandAdhesion } from '../methods/loaded-wheel-sand-adhesion.ts'
import type { WeighedPair } from './declaration.ts'
import { findSuspicions, suspicionsOf, type WeighedTest } from './suspicions.ts'

const loss = wetTrackAbrasion1h.pair as WeighedPair
const gain = loadedWheelSandAdhesion.pair as WeighedPair
const weighed = (code: string, before: string, after: string): WeighedTest => ({
  id: code,
  code,
  group: code.split('-')[0] as string,
  before,
  after,
})

const clean = [
  weighed('10-1', '759.5', '740.7'),
  weighed('10-3', '758.1', '734.5'),
  weighed('10-4', '762.8', '742.7'),
  weighed('11-1', '744.6', '731.6'),
  weighed('11-2', '752.2', '736.2'),
  weighed('11-3', '761.2', '746.3'),
  weighed('12-1', '766.2', '758.0'),
  weighed('12-2', '773.5', '764.0'),
  weighed('12-3', '805.0', '795.7'),
  weighed('13-1', '780.2', '773.7'),
  weighed('13-2', '755.9', '748.1'),
  weighed('13-3', '754.5', '747.9'),
  weighed('14-1', '776.3', '771.2'),
  weighed('14-2', '755.2', '750.5'),
  weighed('14-3', '785.7', '780.4'),
]
const instead = (code: string, after: string, tests = clean) =>
  tests.map((item) => (item.code === code ? { ...item, after } : item))

test('honest scatter raises no suspicion', () => {
  expect(findSuspicions(loss, clean)).toEqual([])
  const strips = [
    weighed('13-1', '368.23', '374.36'),
    weighed('13-2', '370.45', '377.73'),
    weighed('13-3', '365.53', '372.95'),
    weighed('14-1', '375.23', '384.69'),
    weighed('14-2', '369.97', '378.01'),
    weighed('14-3', '371.82', '379.56'),
  ]
  expect(findSuspicions(gain, strips)).toEqual([])
})

test('two discs exchanged at the last weighing are named, and only those two', () => {
  const found = findSuspicions(loss, instead('12-3', '764.0', instead('12-2', '795.7')))
  expect(found.map(({ kind, test }) => [kind, test])).toEqual([
    ['swapped', '12-2'],
    ['swapped', '12-3'],
  ])
  expect(found[0]?.text).toBe(
    '12-2 and 12-3 exchanged? The other way round 12-2 has a loss of 9.5 g and 12-3 of 9.3 g. Weigh both again.',
  )
})

test('an exchange is found between contents, and without any replicate', () => {
  const across = instead('14-3', '747.9', instead('13-3', '780.4'))
  expect(findSuspicions(loss, across).map(({ kind, test }) => [kind, test])).toEqual([
    ['swapped', '13-3'],
    ['swapped', '14-3'],
  ])
  const alone = [weighed('12-2', '773.5', '795.7'), weighed('13-3', '805.0', '764.0')]
  expect(findSuspicions(loss, alone).map(({ kind }) => kind)).toEqual(['swapped', 'swapped'])
})

test('transposed digits are named where the number put right lies among the replicates', () => {
  const tests = instead('13-1', '737.7')
  const subject = tests.find(({ code }) => code === '13-1') as WeighedTest
  expect(suspicionsOf(loss, subject, tests)).toEqual([
    {
      kind: 'transposed',
      test: '13-1',
      weighing: 'after',
      typed: '737.7',
      perhaps: '773.7',
      text: '737.7 g or 773.7 g? Loss of 42.5 g; its replicates show 7.8 and 6.6 g. Weigh 13-1 again.',
    },
  ])
})

test('a first weighing with transposed digits is found too', () => {
  const tests = clean.map((item) => (item.code === '12-3' ? { ...item, before: '850.0' } : item))
  expect(findSuspicions(loss, tests)).toMatchObject([
    { kind: 'transposed', test: '12-3', weighing: 'before', typed: '850.0', perhaps: '805.0' },
  ])
})

test('a difference far from its replicates is asked about, with both numbers', () => {
  expect(findSuspicions(loss, instead('14-2', '732.1'))).toEqual([
    { kind: 'odd', test: '14-2', text: 'Loss of 23.1 g; its replicates show 5.1 and 5.3 g. Weigh 14-2 again.' },
  ])
})

test('a gain without replicates is asked about against the usual range', () => {
  expect(findSuspicions(loss, [weighed('12-1', '766.2', '769.3')])).toEqual([
    {
      kind: 'odd',
      test: '12-1',
      text: 'Gain of 3.1 g; usual is 0.6 to 45 g, common practice, no source. Weigh 12-1 again.',
    },
  ])
})
