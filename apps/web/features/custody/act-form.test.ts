import { expect, test } from 'vitest'
import { fieldsOf, readAct } from './act-form.ts'

const form = (fields: Readonly<Record<string, string>>) => {
  const data = new FormData()
  for (const [name, value] of Object.entries(fields)) data.set(name, value)
  return data
}

test('what an act needs is sent even when empty, so that its refusal stands beside the field', () => {
  expect(readAct('sent', form({ to: '', signedFor: ' ', note: '' }))).toEqual({ to: '', signedFor: '' })
  expect(readAct('placed', form({ placeId: '' }))).toEqual({ placeId: '' })
  expect(readAct('gap', form({ note: '' }))).toEqual({ note: '' })
})

test('what may be left out is not sent, and a field of another act never', () => {
  expect(readAct('received', form({ from: 'Carrier', placeId: '', mass: '', to: 'Nobody' }))).toEqual({
    from: 'Carrier',
  })
})

test('the container seal is intact, broken, or not looked at', () => {
  expect(readAct('accepted', form({ signedFor: 'J. Moor', sealIntact: 'yes' }))).toMatchObject({ sealIntact: true })
  expect(readAct('accepted', form({ signedFor: 'J. Moor', sealIntact: 'no' }))).toMatchObject({ sealIntact: false })
  expect(readAct('accepted', form({ signedFor: 'J. Moor', sealIntact: '' }))).not.toHaveProperty('sealIntact')
})

test('every act asks for something', () => {
  for (const fields of Object.values(fieldsOf)) expect(fields.length).toBeGreaterThan(0)
})
