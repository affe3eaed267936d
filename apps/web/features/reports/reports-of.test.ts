import type { Report } from '@curebook/contract/reports'
import { expect, test } from 'vitest'
import { currentOf, reportsOf } from './reports-of.ts'

const report = (own: Partial<Report>) =>
  ({ id: 'r', designId: 'd', revision: 1, state: 'current', issuedAt: '2026-03-10T09:00:00Z', ...own }) as Report

test('a design shows its own reports, the newest first', () => {
  const rows = [
    report({ id: 'old', issuedAt: '2026-03-10T09:00:00+01:00' }),
    report({ id: 'other', designId: 'x' }),
    report({ id: 'new', issuedAt: '2026-03-10T08:30:00Z' }),
  ]
  expect(reportsOf(rows, 'd').map(({ id }) => id)).toEqual(['new', 'old'])
})

test('the current report of a revision is neither superseded nor of another revision', () => {
  const rows = [report({ id: 'a', state: 'superseded' }), report({ id: 'b', revision: 2 }), report({ id: 'c' })]
  expect(currentOf(rows, 1)?.id).toBe('c')
  expect(currentOf(rows.slice(0, 2), 1)).toBeUndefined()
})
