import type { BenchTask } from '@curebook/contract/bench'
import { describe, expect, test } from 'vitest'
import { dueNow, readCodes } from './step-selection.ts'

const task = (
  testId: string,
  code: string,
  label: string,
  opensAt: string | null = null,
  closesAt: string | null = null,
) => ({ testId, code, label, opensAt, closesAt, castPlace: null }) as BenchTask
const now = Date.parse('2026-03-05T10:00:00Z')

describe('choosing specimens for one act', () => {
  test('those that are due are chosen, late ones too; those whose window has not opened are not', () => {
    const tasks = [
      task('open', '7KD2', '10-1', '2026-03-05T09:00:00Z', '2026-03-05T11:00:00Z'),
      task('late', '7KE4', '10-2', null, '2026-03-05T09:00:00Z'),
      task('later', '9MPX', '12-1', '2026-03-05T10:15:00Z'),
      task('any', '4TRW', '12-2'),
    ]
    expect([...dueNow(tasks, now)]).toEqual(['open', 'late', 'any'])
  })
  test('codes scanned one after another are all read, and unknown ones are named', () => {
    const tasks = [task('a', '7KD2', '10-1'), task('b', '7KE4', '10-2')]
    const { found, unknown } = readCodes(tasks, '7kd2, 10-2 ZZZZ')
    expect(found.map(({ testId }) => testId)).toEqual(['a', 'b'])
    expect(unknown).toEqual(['ZZZZ'])
  })
})
