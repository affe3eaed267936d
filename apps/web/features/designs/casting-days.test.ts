import type { Method } from '@curebook/contract/methods'
import { expect, test } from 'vitest'
import { castDaysOf, runsInWords } from './casting-days.ts'

const waits = (soakHours: string) => ({
  'cure-earliest': parameter('15', 'h'),
  'soak-earliest': parameter(soakHours, 'h'),
  'dry-back-earliest': parameter('15', 'h'),
})
function parameter(value: string, unit: string) {
  return { value, unit, label: '', source: '', certainty: 'common practice' as const }
}
const window = (step: string, act: string, after: string, earliestParameter: string) => ({
  ...{ key: step, step, act, after: { step: after, act: 'start' }, label: '', late: 'miss' },
  earliestParameter,
})
const method = (key: string, soakHours: string, inForce = true): Method => ({
  ...{ key, name: key, shortName: key, form: 'disc', computation: 1, builtIn: {} },
  ...{ place: 'series', madeFrom: 'batch', answers: [], results: [] },
  steps: ['cast', 'cure', 'soak', 'abrade', 'dry-back'].map((step) => ({ key: step, title: step })),
  windows: [
    window('cure', 'end', 'cure', 'cure-earliest'),
    window('abrade', 'start', 'soak', 'soak-earliest'),
    window('dry-back', 'end', 'dry-back', 'dry-back-earliest'),
  ],
  editions: [
    {
      ...{ id: key, methodKey: key, editionKey: key, revision: 1, origin: 'built-in', designation: key, year: '' },
      ...{ effectiveFrom: '2010-01-01', reason: null, superseded: false, at: '2026-01-01T00:00:00Z' },
      standing: inForce ? 'in-force' : 'beside',
      inForce,
      parameters: waits(soakHours),
    },
  ],
})
const weekend = { weekdays: [6, 7], dates: ['2026-04-03', '2026-04-06'] }

test('cast 1-hour discs Mon–Wed, 6-day discs Mon–Thu', () => {
  const days = castDaysOf([method('1 h', '1'), method('6 d', '144')], weekend, '2026-03-05')
  expect(days.map(({ name, runs }) => `${name}: ${runsInWords(runs, 'en')}`)).toEqual(['1 h: Mon–Wed', '6 d: Mon–Thu'])
})

test('what a chosen day would mean is said with the next day that does, single closed dates included', () => {
  const [oneHour, sixDay] = castDaysOf([method('1 h', '1'), method('6 d', '144')], weekend, '2026-03-05')
  expect(oneHour).toMatchObject({ closed: [{ step: 'dry-back', day: '2026-03-07' }], next: '2026-03-09' })
  expect(sixDay).toMatchObject({ closed: [], next: '2026-03-05' })
  const [easter] = castDaysOf([method('6 d', '144')], weekend, '2026-03-26')
  expect(easter).toMatchObject({ closed: [{ step: 'dry-back', day: '2026-04-03' }], next: '2026-03-31' })
})

test('a method without an edition in force is not planned, and single days are named alone', () => {
  expect(castDaysOf([method('1 h', '1', false)], weekend, '2026-03-05')).toEqual([])
  expect(
    runsInWords(
      [
        [1, 2],
        [5, 5],
      ],
      'en',
    ),
  ).toBe('Mon–Tue, Fri')
})
