import { expect, test } from 'vitest'
import { builtInMethods } from '../methods/catalogue.ts'
import { askedReplicates } from './replicates.ts'

test('every edition of a test says how many are asked for, with its source', () => {
  for (const { key, editions } of builtInMethods.filter((method) => method.key !== 'batch'))
    for (const { parameters } of editions) {
      expect(askedReplicates(parameters), key).toBeGreaterThan(0)
      // EN 12274-4 (2018) alone was read for it: five specimens at each time.
      const certainty = key === 'cohesion-en' ? 'published' : 'common practice'
      expect(parameters.replicates, key).toMatchObject({ unit: 'count', certainty })
    }
})

test('an edition that names none, or no whole number, asks for none', () => {
  const held = (value: string) => ({
    replicates: { value, unit: 'count', label: 'Tests', source: 'Own', certainty: 'common practice' } as const,
  })
  expect([askedReplicates({}), askedReplicates(held('2.5')), askedReplicates(held('0'))]).toEqual([null, null, null])
  expect(askedReplicates(held('3'))).toBe(3)
})
