import { expect, test } from 'vitest'
import { inFieldSentences } from './field-sentences.ts'

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
