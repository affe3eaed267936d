import { expect, test } from 'vitest'
import { atContainers, readReceipt, receiptField } from './receipt-form.ts'

const form = (fields: Readonly<Record<string, string>>) => {
  const data = new FormData()
  for (const [name, value] of Object.entries(fields)) data.set(receiptField(name), value)
  return data
}

test('nothing filled in is no receipt', () => {
  expect(readReceipt(form({ containerKind: ' ', containers: '\n', sealIntact: '', placeId: '' }))).toBeUndefined()
})

test('containers are a line each, with the unit as typed', () => {
  expect(
    readReceipt(form({ containerCount: '3', containers: '24.8 kg\n 25,3 kg \n\n24.1 kg', sealIntact: 'no' })),
  ).toEqual({
    containerCount: 3,
    containers: ['24.8 kg', '25,3 kg', '24.1 kg'],
    sealIntact: false,
  })
})

test('a count that is no number stays as typed', () => {
  expect(readReceipt(form({ containerCount: 'two' }))).toEqual({ containerCount: 'two' })
})

test('each refusal of a container stands beside their field', () => {
  expect(
    atContainers({ 'receipt.containers.1': 'Second.', 'receipt.containers.2': 'Third.', name: 'Name it.' }),
  ).toEqual({ 'receipt.containers': 'Second. Third.', name: 'Name it.' })
})
