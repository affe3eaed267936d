import { expect, test } from 'vitest'
import { sourceMark } from './source-mark.ts'

test('a source carries its mark once', () => {
  expect(sourceMark({ source: 'ISSA A143 (2010), from memory, unverified', certainty: 'from memory' })).toBe(
    'ISSA A143 (2010), from memory, unverified',
  )
  expect(sourceMark({ source: 'Contract 7, clause 3', certainty: 'published' })).toBe('Contract 7, clause 3, published')
})
