import { z } from 'zod'
import { IdSchema } from './common.ts'
import { PasswordSchema } from './session.ts'

/** Four to eight digits; not one digit over and over, nor a run like 1234. */
export const NewPinSchema = z
  .string()
  .regex(/^\d{4,8}$/, 'A PIN has four to eight digits')
  .refine((pin) => !isEasy(pin), 'This PIN is the first that others try: choose another')

/** A PIN as typed to come back. */
export const PinSchema = z.string().regex(/^\d{4,8}$/, 'Enter your PIN, four to eight digits')

export const SetPinSchema = z.strictObject({ password: PasswordSchema, pin: NewPinSchema })
export type SetPin = z.infer<typeof SetPinSchema>

export const PinStateSchema = z.object({ set: z.boolean() })
export type PinState = z.infer<typeof PinStateSchema>

/** People of this laboratory who signed in on this device in its present session and have a PIN. */
export const DevicePeopleSchema = z.object({
  people: z.array(z.object({ membershipId: IdSchema, name: z.string(), initials: z.string(), current: z.boolean() })),
  /** Whether whoever is signed in now may come back by a PIN. */
  ownPin: z.boolean(),
})
export type DevicePeople = z.infer<typeof DevicePeopleSchema>

export const SwitchPersonSchema = z.strictObject({ membershipId: IdSchema, pin: PinSchema })
export type SwitchPerson = z.infer<typeof SwitchPersonSchema>

/** The PIN or the password of whoever is signed in, to open a locked screen. */
export const UnlockSchema = z.union([z.strictObject({ pin: PinSchema }), z.strictObject({ password: PasswordSchema })])
export type Unlock = z.infer<typeof UnlockSchema>

function isEasy(pin: string): boolean {
  const steps = [...pin].slice(1).map((digit, index) => Number(digit) - Number(pin[index]))
  return steps.every((step) => step === 0) || steps.every((step) => step === 1) || steps.every((step) => step === -1)
}
