import { expect, test } from 'vitest'
import { typeOfFile } from './file-body.ts'

test('a list is a list, whatever program opens it', () => {
  expect(typeOfFile({ name: 'cups.CSV', type: 'application/vnd.ms-excel' })).toBe('text/csv')
  expect(typeOfFile({ name: 'cups.csv', type: '' })).toBe('text/csv')
  expect(typeOfFile({ name: 'cup.jpg', type: 'image/jpeg' })).toBe('image/jpeg')
})
