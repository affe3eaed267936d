import { expect, test } from 'vitest'
import type { EditionParameters, ObservedReading } from '../procedure/declaration.ts'
import { wetStripping } from './wet-stripping.ts'

const { parameters } = wetStripping.editions[0]!

function sample(mass: string, coated: string, second?: string, changed: EditionParameters = parameters) {
  const reading = (step: string, key: string, value: string): ObservedReading => ({
    id: key,
    step,
    key,
    repeat: 1,
    value,
  })
  return wetStripping.evaluate(
    [
      reading('weigh-sample', 'mass', mass),
      reading('look', 'coated', coated),
      ...(second === undefined ? [] : [reading('look', 'coated-second', second)]),
    ],
    { parameters: changed, factors: [], inputs: {} },
  )
}
const grade = (coated: string) => sample('10.0', coated).choices?.[0]?.choice

test('what one person saw is the result, with its digits as entered', () => {
  const { results } = sample('10.0', '95')
  expect(results).toMatchObject([{ key: 'coated', value: '95', unit: '%', findings: [] }])
  expect(results[0]!.calculation.lines).toMatchObject([{ op: 'input', input: { kind: 'reading', id: 'coated' } }])
})

test('two people are averaged, and said to lie apart when they do by more than the edition lets pass', () => {
  expect(sample('10.0', '90', '95').results).toMatchObject([{ value: '92.5', findings: [] }])
  expect(sample('10.0', '80', '95').results[0]!.findings).toEqual([
    'Two people saw 15 % apart, more than 10 % (common practice, no source): look together.',
  ])
})

test.each([
  ['100', 'satisfactory'],
  ['90', 'satisfactory'],
  ['89.9', 'marginal'],
  ['75', 'marginal'],
  ['74.9', 'unsatisfactory'],
  ['0', 'unsatisfactory'],
])('%s %% coated is %s', (coated, expected) => {
  expect(grade(coated)).toBe(expected)
})

test('the ends of the grades are the edition’s', () => {
  const stricter = { ...parameters, satisfactory: { ...parameters.satisfactory!, value: '95' } }
  expect(sample('10.0', '92', undefined, stricter).choices?.[0]?.choice).toBe('marginal')
})

test('a sample off its mass and a badly stripped one are used, with a sentence', () => {
  expect(sample('12.5', '55').results[0]!.findings).toEqual([
    'A sample of 12.50 g is more than the usual 11 g (common practice, no source); used all the same.',
    'A coated share of 55.00 % is less than the usual 60 % (common practice, no source); used all the same.',
  ])
})

test.each(['101', '-5'])('%s %% of a surface is refused, by either person', (share) => {
  const refused = { code: 'inconsistent', text: expect.stringContaining('lies between 0 and 100 %') }
  expect(sample('10.0', share).refusals).toMatchObject([
    { key: 'coated', ...refused },
    { key: 'grade', ...refused },
  ])
  expect(sample('10.0', '90', share).refusals).toHaveLength(2)
})
