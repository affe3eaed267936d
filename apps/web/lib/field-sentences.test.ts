import { expect, test } from 'vitest'
import { z } from 'zod'
import { inFieldSentences, ownWordsOf } from './field-sentences.ts'

test('a field left open says what to choose; a sentence of the contract or the server stays', () => {
  expect(
    inFieldSentences(
      { clientId: 'Invalid UUID', name: 'Enter the project’s name', kind: 'Invalid option: expected one of …' },
      { clientId: 'Choose the client' },
    ),
  ).toEqual({
    clientId: 'Choose the client',
    name: 'Enter the project’s name',
    kind: 'Invalid option: expected one of …',
  })
})

test('what a schema says in its own words is told in plain ones; a sentence stays as it is', () => {
  const told = (schema: z.ZodType, value: unknown) => ownWordsOf(schema.safeParse(value).error!.issues[0]!.message)
  expect(told(z.string().max(5), 'far too long')).toEqual({ key: 'tooLong', count: 5 })
  expect(told(z.string().min(1), '')).toEqual({ key: 'needText' })
  expect(told(z.string(), undefined)).toEqual({ key: 'needText' })
  expect(told(z.uuid(), '')).toEqual({ key: 'needChoice' })
  expect(told(z.enum(['a', 'b']), '')).toEqual({ key: 'needChoice' })
  expect(told(z.iso.date(), '')).toEqual({ key: 'needDay' })
  expect(told(z.number().max(5), 9)).toEqual({ key: 'atMost', count: 5 })
  expect(told(z.number().min(1), 0)).toEqual({ key: 'atLeast', count: 1 })
  expect(told(z.number().int(), 1.5)).toEqual({ key: 'needWhole' })
  expect(told(z.number(), Number.NaN)).toEqual({ key: 'needWhole' })
  expect(told(z.string().min(1, 'Name the sieve, like No. 4'), '')).toBeUndefined()
})
