import { describe, expect, test } from 'vitest'
import { builtInMethods } from '../methods/catalogue.ts'
import { wetTrackAbrasion1h } from '../methods/wet-track-abrasion.ts'
import { builtInReferenceCases } from '../reference-cases/built-in.ts'
import { checkCalculation } from './calculation-checker.ts'
import { workedExample } from './worked-example.ts'

describe.each(builtInMethods.map((method) => [method.key, method] as const))('%s', (_, method) => {
  const example = workedExample(method, builtInReferenceCases)

  test('shows a case whose every working holds, and ends in what is shown', () => {
    expect(example?.results.length).toBeGreaterThan(0)
    for (const { calculation, value, choice } of example?.results ?? []) {
      expect(checkCalculation(calculation, value ?? undefined)).toEqual([])
      expect(value ?? choice).not.toBe('')
    }
  })
  test('names what went in as the bench does', () => {
    const titles = method.steps.map(({ title }) => title)
    for (const { name } of example?.inputs ?? []) {
      if (!name.includes(': ')) continue
      expect(
        titles.some((title) => name.startsWith(`${title}: `)),
        name,
      ).toBe(true)
    }
  })
})

test('a case from a document comes before a constructed one, and one that gives no result is passed over', () => {
  const [file] = builtInReferenceCases.filter(({ method }) => method === wetTrackAbrasion1h.key)
  const [first] = file!.cases
  const cases = [
    { ...first!, id: 'empty', title: 'Nothing was read', readings: [] },
    { ...first!, id: 'made', title: 'Made up', kind: 'constructed' as const },
    { ...first!, id: 'read', title: 'Read', kind: 'published' as const },
  ]
  expect(workedExample(wetTrackAbrasion1h, [{ method: wetTrackAbrasion1h.key, cases }])).toMatchObject({
    title: 'Read',
    others: 2,
  })
  expect(workedExample(wetTrackAbrasion1h, [{ method: wetTrackAbrasion1h.key, cases: [cases[0]!] }])).toBeUndefined()
  expect(workedExample(wetTrackAbrasion1h, [])).toBeUndefined()
})
