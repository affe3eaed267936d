import { describe, expect, test } from 'vitest'
import { linesOf } from './log-rows.ts'

const value = (at: string) => ({
  id: at,
  at,
  typed: '25.1',
  unit: '°C',
  by: null,
  outside: false,
  note: null,
  corrects: null,
})
const log = {
  values: [value('2026-03-08T06:00:00Z'), value('2026-03-08T12:00:00Z')],
  gaps: [{ from: '2026-03-08T06:00:00Z', until: '2026-03-08T12:00:00Z' }],
}

describe('the log', () => {
  test('shows the newest first, and a gap between the values that it parts', () => {
    expect(linesOf(log, 10).map(({ kind }) => kind)).toEqual(['value', 'gap', 'value'])
  })
  test('shows no more than are read', () => {
    expect(linesOf(log, 2).map(({ at }) => at)).toEqual(['2026-03-08T12:00:00Z', '2026-03-08T06:00:00Z'])
  })
})
