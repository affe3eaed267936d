import type { Material } from '@curebook/contract/materials'
import { expect, test } from 'vitest'
import { byKind, readKind } from './material-kinds.ts'

const sample = (code: string, kind: Material['kind'], receivedOn: string) => ({ code, kind, receivedOn }) as Material

test('samples stand by kind, the newest first, and a kind without samples keeps its place', () => {
  const groups = byKind([
    sample('A-1', 'aggregate', '2026-03-02'),
    sample('E-1', 'emulsion', '2026-03-02'),
    sample('A-2', 'aggregate', '2026-03-09'),
  ])
  expect(groups.map(({ kind, rows }) => [kind, rows.map(({ code }) => code)])).toEqual([
    ['aggregate', ['A-2', 'A-1']],
    ['emulsion', ['E-1']],
    ['filler', []],
    ['additive', []],
    ['water', []],
  ])
})
test('a kind in an address counts only when there is such a kind', () => {
  expect(readKind('filler')).toBe('filler')
  expect(readKind('sand')).toBeUndefined()
})
