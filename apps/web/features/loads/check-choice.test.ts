import type { Load } from '@curebook/contract/loads'
import { describe, expect, test } from 'vitest'
import { checkChoices } from './check-choice.ts'

const specimen = (testId: string, emulsionPercent: string, since: string): Load['specimens'][number] => ({
  testId,
  code: testId.toUpperCase(),
  label: testId,
  designId: null,
  designName: null,
  methodName: '',
  stepKey: 'cure',
  stepTitle: '',
  since: `2026-03-05T${since}:00Z`,
  endsHere: true,
  opensAt: null,
  closesAt: null,
  emulsionPercent,
})
const check = (testId: string): Load['checks'][number] => ({
  testId,
  code: '',
  label: '',
  weighings: [],
  state: 'one',
  sentence: '',
})
const specimens = [specimen('a', '10', '10:45'), specimen('b', '14', '10:45'), specimen('c', '14', '11:10')]

describe('a check specimen', () => {
  test('is offered from the richest and last put in on', () => {
    expect(checkChoices({ specimens, checks: [] }).map(({ testId }) => testId)).toEqual(['c', 'b', 'a'])
  })
  test('once weighed comes first, and two are enough', () => {
    expect(checkChoices({ specimens, checks: [check('a')] }).map(({ testId }) => testId)).toEqual(['a', 'c', 'b'])
    expect(checkChoices({ specimens, checks: [check('a'), check('c')] }).map(({ testId }) => testId)).toEqual([
      'a',
      'c',
    ])
  })
})
