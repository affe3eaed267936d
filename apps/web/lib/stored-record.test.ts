import { expect, test } from 'vitest'
import { storedRecord } from './stored-record.ts'

test.each([null, '', '{', 'null', '[1]', '"left"', '7'])('kept as %j it is an empty record', (text) => {
  expect(storedRecord(text)).toEqual({})
})
test('a record is read as it was kept', () => {
  expect(storedRecord('{"a":[1],"b":null}')).toEqual({ a: [1], b: null })
})
