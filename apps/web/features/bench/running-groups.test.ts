import type { BenchTask } from '@curebook/contract/bench'
import { expect, test } from 'vitest'
import { runningWindows } from './running-groups.ts'

const now = Date.parse('2026-03-05T10:00:00Z')
const task = (label: string, opensAt: string | null, closesAt: string | null) =>
  ({
    testId: label,
    label,
    code: label,
    methodKey: 'm',
    stepKey: 's',
    act: 'start',
    designId: 'd',
    opensAt,
    closesAt,
    castPlace: null,
  }) as BenchTask

test('all running windows stand in one strip, what comes next first, those of one load together', () => {
  const tasks = [
    task('cure 2', '2026-03-06T01:00:00Z', '2026-03-06T10:00:00Z'),
    task('cure 1', '2026-03-06T01:00:00Z', '2026-03-06T10:00:00Z'),
    task('soak', '2026-03-05T09:40:00Z', '2026-03-05T10:10:00Z'),
    task('soon', '2026-03-05T10:05:00Z', '2026-03-05T10:20:00Z'),
    task('late', null, '2026-03-05T09:50:00Z'),
    task('no window', null, null),
    task('opened, no end', '2026-03-05T09:00:00Z', null),
  ]
  expect(runningWindows(tasks, now).map(({ tasks: own }) => own.map(({ label }) => label))).toEqual([
    ['late'],
    ['soon'],
    ['soak'],
    ['cure 1', 'cure 2'],
  ])
})
