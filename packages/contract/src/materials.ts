import { readAmount } from '@curebook/trade/quantity/amount'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { z } from 'zod'
import { DaySchema, IdSchema, InstantSchema, TypedSchema } from './common.ts'

export const MaterialKindSchema = z.enum(['aggregate', 'emulsion', 'filler', 'additive', 'water'])
export type MaterialKind = z.infer<typeof MaterialKindSchema>

/** How a sample or its container was found: a short list, beside which words stand in the note. */
export const ConditionSchema = z.enum([
  'good',
  'container-damaged',
  'leaking',
  'wet',
  'contaminated',
  'skin',
  'near-freezing',
  'other',
])
export type Condition = z.infer<typeof ConditionSchema>

export const SafetySheetSchema = z.enum(['on-file', 'missing', 'not-needed'])

export const MaterialsQuerySchema = z.strictObject({ kind: MaterialKindSchema.optional() })

/** A sample of a material as received: the head of every specimen's family tree. */
export const MaterialSchema = z.object({
  id: IdSchema,
  /** The laboratory's code for the sample. */
  code: z.string(),
  kind: MaterialKindSchema,
  /** What it is: "Type II aggregate, crushed". */
  name: z.string(),
  /** Where it comes from (quarry, plant). */
  sourceName: z.string(),
  supplier: z.string(),
  lot: z.string(),
  receivedOn: DaySchema,
  note: z.string(),
  createdAt: InstantSchema,
})
export type Material = z.infer<typeof MaterialSchema>

const told = z.string().trim().min(1).max(500).optional()

/** A line each, every line that is no amount named, beside whatever else is wrong. */
const ContainersSchema = z
  .array(TypedSchema)
  .max(200)
  .superRefine((lines, context) => {
    for (const [index, line] of lines.entries()) {
      const amount = readAmount(line, `What container ${index + 1} holds`)
      if (!amount.ok) context.addIssue({ code: 'custom', path: [index], message: amount.message })
    }
  })

const TemperatureOnArrivalSchema = TypedSchema.superRefine((typed, context) => {
  const read = readTypedNumber(typed, { unit: '°C', label: 'The temperature', mayBeNegative: true })
  if (!read.ok) context.addIssue({ code: 'custom', message: read.message })
})

/** What is looked at on arrival, and what the client told. All of it may be left out. */
export const NewReceiptSchema = z.strictObject({
  /** Bag, jerrycan … */
  containerKind: z.string().trim().min(1).max(100).optional(),
  containerCount: z
    .int('Count the containers in whole numbers')
    .min(1, 'There is at least one container')
    .max(1000)
    .optional(),
  /** What each container holds, with its unit as typed: 24.8 kg, 5 L. */
  containers: ContainersSchema.default([]),
  /** In °C unless another unit is typed. */
  temperature: TemperatureOnArrivalSchema.optional(),
  condition: ConditionSchema.optional(),
  sealIntact: z.boolean().optional(),
  sampledBy: told,
  sampledWhere: told,
  sampledHow: told,
  safetySheet: SafetySheetSchema.optional(),
  safetySheetName: told,
  /** Of an emulsion: the day at the plant. */
  madeOn: DaySchema.optional(),
  /** Where it is stored, a place with access control; without one it is with whoever receives it. */
  placeId: IdSchema.optional(),
})
export type NewReceipt = z.infer<typeof NewReceiptSchema>

export const CreateMaterialSchema = z.strictObject({
  id: IdSchema,
  kind: MaterialKindSchema,
  name: z.string().trim().min(1, 'Say what the material is').max(200),
  sourceName: z.string().trim().min(1, 'Say where the material comes from').max(200),
  supplier: z.string().trim().max(200).default(''),
  lot: z.string().trim().max(100).default(''),
  receivedOn: DaySchema,
  note: z.string().trim().max(2000).default(''),
  receipt: NewReceiptSchema.optional(),
})
export type CreateMaterial = z.infer<typeof CreateMaterialSchema>
