import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { expect, it } from 'vitest'
import { askedAt, askedCounts } from './asked-counts.ts'
import type { CountedTestRow } from './asked-counts.repository.ts'

const asks = (value: string) => JSON.stringify({ replicates: { value, unit: 'count' } })
const made = (more: Partial<CountedTestRow>): CountedTestRow => ({
  ...{ methodKey: 'cohesion', emulsionPercent: '12.0', state: 'done', takesPart: true, hasResult: true },
  parameters: asks('3'),
  ...more,
})
const counted = (...tests: CountedTestRow[]) =>
  askedCounts(builtInMethods, tests).map(({ methodKey, emulsionPercent, counted: own, open, voided, asked }) => [
    methodKey,
    emulsionPercent,
    `${own} of ${asked}, ${open} open, ${voided} void`,
  ])

it('counts what is done and has a result; what is void, refused or a spare in nobody’s place does not count', () => {
  const spare = { takesPart: false }
  expect(
    counted(made({}), made({ hasResult: false }), made({ state: 'void' }), made({ state: 'in-work' }), made(spare)),
  ).toEqual([['cohesion', '12', '1 of 3, 1 open, 1 void']])
})

it('what is asked for at a content is of its own tests; a series asks for three where no edition says it', () => {
  const method = (key: string) => builtInMethods.find((one) => one.key === key)
  const series = made({ methodKey: 'wet-track-abrasion-1h', parameters: asks('2') })
  const counts = askedCounts(builtInMethods, [made({ parameters: asks('5') }), series])
  expect(askedAt(counts, method('cohesion'), '12')).toBe(5)
  expect(askedAt(counts, method('cohesion'), '14.0')).toBeNull()
  expect(askedAt(counts, method('cohesion'), null)).toBeNull()
  expect(askedAt(counts, method('wet-track-abrasion-1h'), '12.00')).toBe(2)
  expect(askedAt(counts, method('wet-track-abrasion-1h'), '14')).toBe(3)
  expect(askedAt(counts, undefined, '12')).toBeNull()
})

it('contents stand apart; the greatest number is asked for, and an edition that names none asks for none', () => {
  expect(
    counted(
      made({ parameters: '{}' }),
      made({ emulsionPercent: '12', parameters: asks('2') }),
      made({ emulsionPercent: '14', parameters: '{}' }),
      made({ methodKey: 'binder-ignition', emulsionPercent: null, parameters: asks('2') }),
      made({ methodKey: 'trial-mix-at-temperature' }),
    ),
  ).toEqual([
    ['cohesion', '12', '2 of 2, 0 open, 0 void'],
    ['binder-ignition', null, '1 of 2, 0 open, 0 void'],
  ])
})
