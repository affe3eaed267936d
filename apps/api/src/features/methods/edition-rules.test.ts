import { wetTrackAbrasion1h } from '@curebook/trade/methods/wet-track-abrasion'
import { expect, test } from 'vitest'
import { changedParameters, faultsOfChanges, inForceOn } from './edition-rules.ts'

const parameters = wetTrackAbrasion1h.editions[0]!.parameters
const change = (parameter: string, value: string) => ({
  parameter,
  value,
  source: 'Contract 12',
  certainty: 'published' as const,
})
const edition = (origin: string, effectiveFrom: string, revision: number, at = '2026-01-01T08:00:00Z') => ({
  origin,
  effectiveFrom,
  revision,
  at,
})

test('the newest edition that has taken effect is in force', () => {
  const editions = [
    edition('built-in', '2010-01-01', 1),
    edition('built-in', '2020-01-01', 2),
    edition('built-in', '2030-01-01', 3),
  ]
  expect(inForceOn(editions, '2026-03-05')?.revision).toBe(2)
  expect(inForceOn(editions, '2009-12-31')).toBeUndefined()
})

test('a laboratory’s own edition stands before any built-in one, once it has taken effect', () => {
  const editions = [
    edition('built-in', '2026-02-01', 3),
    edition('laboratory', '2026-01-01', 2),
    edition('built-in', '2010-01-01', 1),
  ]
  expect(inForceOn(editions, '2026-03-05')?.revision).toBe(2)
  expect(inForceOn(editions, '2025-12-31')?.revision).toBe(1)
})

test('of two editions from one day the later revision is in force', () => {
  expect(
    inForceOn([edition('laboratory', '2026-01-01', 2), edition('laboratory', '2026-01-01', 3)], '2026-01-01')?.revision,
  ).toBe(3)
})

test('of copies of two editions from one day the one made later is in force, whatever its revision', () => {
  const [first, second] = [
    edition('laboratory', '2026-01-01', 3, '2026-01-01T08:00:00Z'),
    edition('laboratory', '2026-01-01', 2, '2026-01-01T09:00:00Z'),
  ]
  expect(inForceOn([first, second], '2026-01-01')).toBe(second)
  expect(inForceOn([second, first], '2026-01-01')).toBe(second)
})

test('a changed bound carries its own source and loses the clause of the former one', () => {
  const cited = { ...parameters, 'soak-latest': { ...parameters['soak-latest']!, clause: '4.2' } }
  const changed = changedParameters(cited, [change('soak-latest', '70')])
  expect(changed['soak-latest']).toEqual({
    value: '70',
    unit: 'min',
    label: parameters['soak-latest']!.label,
    source: 'Contract 12',
    certainty: 'published',
  })
  expect(changed['soak-earliest']).toBe(parameters['soak-earliest'])
})

test('unknown and doubled bounds are refused beside their place', () => {
  const faults = faultsOfChanges(wetTrackAbrasion1h, parameters, [
    change('soak-latest', '70'),
    change('nothing', '1'),
    change('soak-latest', '71'),
  ])
  expect(faults.map(({ path }) => path)).toEqual(['changes.1.parameter', 'changes.2.parameter'])
})

test('a window must not close before it opens', () => {
  expect(faultsOfChanges(wetTrackAbrasion1h, parameters, [change('soak-latest', '59')])).toHaveLength(1)
  expect(faultsOfChanges(wetTrackAbrasion1h, parameters, [change('soak-latest', '60')])).toEqual([])
})

test('a bound less than nothing is refused, except a temperature', () => {
  expect(faultsOfChanges(wetTrackAbrasion1h, parameters, [change('constant-mass', '-0.1')])).toHaveLength(1)
  expect(faultsOfChanges(wetTrackAbrasion1h, parameters, [change('soak-temperature', '-1')])).toEqual([])
})
