import { expect, test } from 'vitest'
import { adoptSpecification } from './adopt.ts'
import { builtInSpecifications } from './built-in.ts'
import { asksTheSame, changesBetween } from './specification-changes.ts'
import type { Limit, Specification } from './specification.ts'

const outcome = adoptSpecification(builtInSpecifications[0]!, {
  name: 'Contract 12',
  aggregateType: 'Type II',
  traffic: 'heavy',
  changes: [],
})
if (!outcome.ok) throw new Error('The guideline values cannot be adopted.')
const before: Specification = outcome.specification

test('a version that says the same differs in nothing', () => {
  expect(changesBetween(before, JSON.parse(JSON.stringify(before)))).toEqual([])
})

test('each change stands with what was and what is', () => {
  const after: Specification = {
    ...before,
    name: 'Contract 12, addendum',
    residualBand: { ...before.residualBand, from: '6.5' },
    limits: before.limits.flatMap((limit) =>
      limit.key === 'mix-time'
        ? [{ ...limit, value: '150', rounding: 'half-even' as const }]
        : limit.key === 'polymer-solids'
          ? []
          : [limit],
    ),
    gradationBand: {
      ...before.gradationBand!,
      sieves: before.gradationBand!.sieves.map((sieve) => (sieve.size === '4.75' ? { ...sieve, from: '94' } : sieve)),
    },
  }
  const changes = changesBetween(before, after)
  expect(changes.map(({ what }) => what)).toEqual([
    'Name',
    'Residual binder allowed',
    'Mix time',
    'Polymer solids',
    'Gradation, 4.75 mm',
  ])
  expect(changes[2]).toMatchObject({
    before: expect.stringContaining('at least 120 s; at 25 °C; compared unrounded'),
    after: expect.stringContaining('at least 150 s; at 25 °C; rounded to the last place'),
  })
  expect(changes[3]?.after).toBeNull()
  expect(changes[4]).toEqual({
    what: 'Gradation, 4.75 mm',
    before: '90 to 100 %, stockpile ± 5',
    after: '94 to 100 %, stockpile ± 5',
  })
})

const mixTime = before.limits.find(({ key }) => key === 'mix-time')!
const changed = (more: Partial<Limit>) => ({
  ...before,
  limits: before.limits.map((limit) => (limit === mixTime ? { ...limit, ...more } : limit)),
})

test('a limit that another test answers, or that stands for others, is another one', () => {
  const told = (more: Partial<Limit>) => changesBetween(before, changed(more))
  expect(told({ property: 'mix-time-at-job-temperature' })).toEqual([
    {
      what: 'Mix time',
      before: expect.stringContaining('answered by results of mix-time'),
      after: expect.stringContaining('answered by results of mix-time-at-job-temperature'),
    },
  ])
  expect(told({ group: 'emulsion' })[0]?.after).toContain('of the emulsion')
  expect(told({ traffic: 'light' })[0]).toMatchObject({
    before: expect.stringContaining('any traffic'),
    after: expect.stringContaining('light traffic'),
  })
  // With another change it is told beside it.
  expect(told({ property: 'other', value: '150' })[0]?.after).toMatch(/at least 150 s.*answered by results of other/)
  // The unit of what has no number decides which result is shown.
  const unheld = { value: null, sense: 'declared' } as const
  expect(changesBetween(changed(unheld), changed({ ...unheld, unit: 'min' }))[0]?.after).toContain('in min')
})

test('what is known beside a number holds for the same question alone', () => {
  expect(asksTheSame(mixTime, { ...mixTime, upper: null, group: 'mix', label: 'Time of mixing' })).toBe(true)
  for (const other of [{ property: 'other' }, { soak: '6-day' }, { value: '150' }, { unit: 'min' }])
    expect(asksTheSame(mixTime, { ...mixTime, ...other })).toBe(false)
})

test('a gradation that only another document holds is another one', () => {
  const gradationBand = { ...before.gradationBand!, certainty: 'by contract' as const }
  expect(changesBetween(before, { ...before, gradationBand }).map(({ what }) => what)).toEqual(['Gradation, source'])
})
