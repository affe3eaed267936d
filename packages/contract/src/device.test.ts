import { expect, test } from 'vitest'
import { NewPinSchema } from './device.ts'

test.each(['2468', '90210', '11112', '12354'])('%s is a PIN', (pin) => {
  expect(NewPinSchema.safeParse(pin).success).toBe(true)
})
test.each(['123', '123456789', '12a4', '0000', '1234', '98765', '', '12 34'])('%s is none', (pin) => {
  expect(NewPinSchema.safeParse(pin).success).toBe(false)
})
