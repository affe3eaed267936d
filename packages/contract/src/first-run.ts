import { z } from 'zod'
import { IdSchema } from './common.ts'
import { LaboratorySettingsSchema, ShortNameSchema } from './laboratory.ts'
import { EmailSchema, PasswordSchema } from './session.ts'

/** Whether the first laboratory is still to be made. */
export const FirstRunStateSchema = z.object({ needed: z.boolean() })

const { name, address, contact, zone, units, decimalSign, paper } = LaboratorySettingsSchema.shape

/** The first laboratory and its first manager, against the one-time code that the server printed. */
export const FirstRunSchema = z.strictObject({
  code: z.string().trim().min(1, 'Enter the code that the server printed').max(60),
  laboratory: z.strictObject({
    id: IdSchema,
    shortName: ShortNameSchema,
    name,
    address: address.default(''),
    contact: contact.default(''),
    zone,
    units: units.default('si'),
    decimalSign: decimalSign.default('point'),
    paper: paper.default('a4'),
  }),
  manager: z.strictObject({
    name: z.string().trim().min(1, 'Enter your name').max(120),
    initials: z.string().trim().min(1, 'Enter your initials').max(6),
    email: EmailSchema,
    password: PasswordSchema,
  }),
})
export type FirstRun = z.infer<typeof FirstRunSchema>

export const FirstRunDoneSchema = z.object({ labId: IdSchema, shortName: z.string() })
