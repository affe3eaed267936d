import { expect, test } from 'vitest'
import { builtInMethods } from '../methods/catalogue.ts'
import { runReferenceCases, type ReferenceCaseFile } from '../procedure/reference-cases.ts'
import { builtInReferenceCases } from './built-in.ts'

const rows = runReferenceCases(builtInMethods, builtInReferenceCases)

test.each(rows)('$method $case: $outcome is $expected', (row) => {
  expect(row).toMatchObject({ agrees: true, computation: 1 })
})

test('every built-in method has its cases, and no case stands twice', () => {
  expect(builtInReferenceCases.map(({ method }) => method).sort()).toEqual(builtInMethods.map(({ key }) => key).sort())
  for (const { cases } of builtInReferenceCases) expect(new Set(cases.map(({ id }) => id)).size).toBe(cases.length)
})

test('a case that does not agree, or has no method here, is a row and not an error', () => {
  const file = builtInReferenceCases[1] as ReferenceCaseFile
  const wrong: ReferenceCaseFile = {
    ...file,
    cases: [{ ...file.cases[0]!, expected: [{ key: 'loss', unit: 'g', value: '13.4', tolerance: '0.05' }] }],
  }
  expect(runReferenceCases(builtInMethods, [wrong])).toMatchObject([{ agrees: false, obtained: '13.3' }])
  expect(runReferenceCases([], [wrong])).toMatchObject([
    { agrees: false, obtained: 'no such method here', computation: null },
  ])
})
