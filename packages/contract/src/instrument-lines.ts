import { z } from 'zod'
import { IdSchema, InstantSchema, PersonNameSchema, SupersedesSchema } from './common.ts'
import { baudRates, dataBits, parities, stopBits } from './line-settings.ts'

/** How a balance sends, and one line that it sent with the number that it showed then. */
const line = {
  baudRate: z.literal(baudRates, 'Choose the speed as it is set at the balance'),
  dataBits: z.literal(dataBits, 'Choose the data bits as they are set at the balance'),
  parity: z.enum(parities, 'Choose the parity as it is set at the balance'),
  stopBits: z.literal(stopBits, 'Choose the stop bits as they are set at the balance'),
  /** As it came, spaces and all, without its line end. */
  example: z.string().max(200),
  shown: z.string().max(40),
}

export const LineSettingsSchema = z.object(line)

export const InstrumentLineSchema = LineSettingsSchema.extend({
  id: IdSchema,
  by: PersonNameSchema,
  at: InstantSchema,
  supersedes: z.object({ id: IdSchema, reason: z.string() }).nullable(),
  superseded: z.boolean(),
})
export type InstrumentLine = z.infer<typeof InstrumentLineSchema>

/** How an instrument sent and sends, the latest first; one of them stands. */
export const InstrumentLinesSchema = z.object({ items: z.array(InstrumentLineSchema), next: z.null() })
export type InstrumentLines = z.infer<typeof InstrumentLinesSchema>

export const SetInstrumentLineSchema = z.strictObject({
  id: IdSchema,
  ...line,
  example: line.example.trim().min(1, 'Enter one line as the balance sent it'),
  shown: line.shown.trim().min(1, 'Enter the number that the balance showed then'),
  /** With the reason where another one stands. */
  supersedes: SupersedesSchema.optional(),
})
export type SetInstrumentLine = z.infer<typeof SetInstrumentLineSchema>
