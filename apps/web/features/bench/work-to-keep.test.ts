import type { BenchQueue, BenchTask } from '@curebook/contract/bench'
import type { Ovens } from '@curebook/contract/loads'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { expect, test } from 'vitest'
import { answerOfRack, answersOfLogs, benchToKeep, firstOfRacks, testsToKeep } from './work-to-keep.ts'

const task = (testId: string, more: Partial<BenchTask> = {}) =>
  ({
    testId,
    code: testId,
    label: testId,
    methodKey: 'abrasion',
    stepKey: 'weigh',
    act: 'reading',
    form: 'disc',
    designId: 'd',
    opensAt: null,
    closesAt: null,
    castPlace: null,
    ordinal: 0,
    ...more,
  }) as BenchTask

test('each specimen is held once, the most urgent first, and no more than a day of one person has', () => {
  const many = Array.from({ length: 80 }, (_, at) => task(`t${String(at).padStart(2, '0')}`))
  const held = testsToKeep([...many, task('t79', { act: 'end', closesAt: '2026-03-04T08:00:00Z' })])
  expect(held).toHaveLength(60)
  expect(held[0]).toMatchObject({ testId: 't79', act: 'end' })
  expect(new Set(held.map(({ testId }) => testId)).size).toBe(60)
})

test('a rack is fetched as its screen asks for it: with the first reading of its step', () => {
  const tasks = [task('a'), task('b'), task('c', { act: 'start' }), task('d', { form: 'batch', methodKey: 'batch' })]
  expect(firstOfRacks(tasks).map(({ testId }) => testId)).toEqual(['a'])
  const steps = [
    {
      key: 'weigh',
      readings: [
        { key: 'note', kind: 'text' },
        { key: 'w1', kind: 'number' },
      ],
    },
  ] as unknown as StepDeclaration[]
  expect(answerOfRack('lab', tasks[0]!, steps, 's')).toEqual({
    path: '/api/labs/lab/bench/rack?methodKey=abrasion&stepKey=weigh&readingKey=w1&designId=d',
    state: 's',
  })
  expect(answerOfRack('lab', task('a', { stepKey: 'other' }), steps, 's')).toBeUndefined()
})

test('what a bench is drawn from is named as its screens name it, and changes when the work moves on', () => {
  const queue = (act: 'start' | 'reading') => ({ now: '', tasks: [task('a', { act })] }) as unknown as BenchQueue
  const { pages, answers } = benchToKeep({ id: 'lab', short: 'th' }, queue('start'))
  expect(pages).toEqual(['/l/th/bench', '/l/th/bench/rack', '/l/th/bench/steps', '/l/th/ovens', '/l/th/bench/tests/a'])
  expect(answers.map(({ path }) => path)).toEqual([
    '/api/session',
    '/api/labs/lab',
    '/api/labs/lab/bench/queue?whose=mine',
    '/api/labs/lab/bench/queue?whose=all',
    '/api/labs/lab/loads',
    '/api/labs/lab/notices',
    '/api/labs/lab/device/people',
    '/api/labs/lab/tests/a',
  ])
  const later = benchToKeep({ id: 'lab', short: 'th' }, queue('reading')).answers
  expect(later.filter(({ state }, at) => state !== answers[at]!.state).map(({ path }) => path)).toEqual([
    '/api/labs/lab/bench/queue?whose=mine',
    '/api/labs/lab/bench/queue?whose=all',
    '/api/labs/lab/loads',
    '/api/labs/lab/notices',
    '/api/labs/lab/tests/a',
  ])
})

test('the log of each oven and bath is held with the page that shows it', () => {
  const ovens = { instruments: [{ id: 'ov1' }, { id: 'bath' }] } as unknown as Ovens
  expect(answersOfLogs('lab', ovens, 's')).toEqual([
    { path: '/api/labs/lab/instruments/ov1/conditions', state: 's' },
    { path: '/api/labs/lab/instruments/bath/conditions', state: 's' },
  ])
})
