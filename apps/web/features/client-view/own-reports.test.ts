import { describe, expect, test } from 'vitest'
import { inReadingOrder, replacementOf, type OwnReport } from './own-reports.ts'

const report = (id: string, issuedAt: string, state: OwnReport['state'], replacedBy: string | null = null) => ({
  id,
  number: `R-${id}`,
  designName: 'Design',
  issuedAt,
  state,
  replacedBy,
})
const old = report('1', '2026-03-01T10:00:00Z', 'superseded', 'R-2')
const present = report('2', '2026-03-09T10:00:00Z', 'current')
const newer = report('3', '2026-03-20T10:00:00Z', 'withdrawn')

describe('the reports of a client (ux C6)', () => {
  test('the one in force stands first, then the newest', () => {
    expect(inReadingOrder([old, newer, present]).map(({ id }) => id)).toEqual(['2', '3', '1'])
  })
  test('a superseded one leads to the one in its place, by number or by id', () => {
    expect(replacementOf(old, [old, present])).toBe(present)
    expect(replacementOf({ ...old, replacedBy: '2' }, [old, present])).toBe(present)
    expect(replacementOf(present, [old, present])).toBeUndefined()
    expect(replacementOf(old, [old])).toBeUndefined()
  })
})
