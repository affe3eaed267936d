import { DigitsSchema } from '@curebook/contract/common'
import { expect, test } from 'vitest'
import { toldAlone } from './told-alone.ts'

const field = { path: 'limits.0.value', part: undefined, label: 'Value' }

test('away from its field, a sentence that names nothing is told with the label above it', () => {
  const message = DigitsSchema.safeParse('about 5').error!.issues[0]!.message
  expect(toldAlone(message, field)).toBe('Value: A number, like 312.4')
  expect(toldAlone('Choose one of the list.', field, true)).toBe('Value: Choose one of the list.')
  expect(toldAlone('Enter the mass, like 312.4', field)).toBe('Enter the mass, like 312.4')
})

test('what is said of one row of many names the row', () => {
  const ofRow = { ...field, part: 'Mix time' }
  expect(toldAlone('Give the unit of the limit', ofRow)).toBe('Mix time: Give the unit of the limit')
  expect(toldAlone('A number, like 312.4', ofRow)).toBe('Mix time, Value: A number, like 312.4')
})

test('what belongs to no field stands as it came', () => {
  expect(toldAlone('Somebody else stored it meanwhile.', undefined)).toBe('Somebody else stored it meanwhile.')
})
