import { z } from 'zod'

/** A record's id: UUIDv7, made by whoever creates the thing, so that a retry is the same thing. */
export const IdSchema = z.uuid()

/** An instant, ISO 8601 with offset; in UTC too its year has four digits, or it could be written and never be read again. */
export const InstantSchema = z.iso.datetime({ offset: true }).refine(isOfFourDigitYear, 'A time before the year 9999')

/** A calendar day in the laboratory's zone, `2026-03-05`. */
export const DaySchema = z.iso.date()

/**
 * Decimal digits with a point, as stored or computed; never a JSON number, so that no digit is lost. Wider than what can be
 * given: what is computed from odd numbers is shown, or nobody could see them to put them right.
 */
export const DigitsSchema = z.string().regex(/^[+-]?\d{1,200}(\.\d{1,200})?$/, 'A number, like 312.4')

/** The same as a person or a form gives it. */
export const GivenDigitsSchema = digitsLike('312.4')

/** The same with an example of its own. */
export function digitsLike(example: string) {
  return z.string().regex(/^[+-]?\d{1,12}(\.\d{1,40})?$/, `A number, like ${example}`)
}

/** What a person typed, before it is read. */
export const TypedSchema = z.string().trim().min(1).max(200)

/** What an entry takes the place of, and why; the old one stays in the record. */
export const SupersedesSchema = z.strictObject({
  id: IdSchema,
  reason: z.string().trim().min(1, 'Give the reason of the change').max(500),
})

/** A sentence or a paragraph of a person. */
export const TextSchema = z.string().trim().min(1).max(4000)
export const OptionalTextSchema = z.string().trim().max(4000).optional()

export const RoleSchema = z.enum(['manager', 'technician', 'engineer', 'client', 'auditor'])
export type Role = z.infer<typeof RoleSchema>

/** Page of a list: `next` is the cursor of the following page, null on the last. */
export function pageOf<T extends z.ZodType>(item: T) {
  return z.object({ items: z.array(item), next: z.string().nullable() })
}
export const CursorQuerySchema = z.object({
  cursor: z.string().optional(),
  limit: z.coerce.number().int().min(1).max(200).default(50),
})

/** A person as named beside what they did. */
export const PersonNameSchema = z.object({ membershipId: IdSchema, name: z.string(), initials: z.string() })
export type PersonName = z.infer<typeof PersonNameSchema>

/**
 * When something happened, apart from when it was told: now, so many minutes ago, or at a time of day. The server stores
 * the time it received the message beside it, and the device's clock offset.
 */
export const EventTimeSchema = z.strictObject({
  eventAt: InstantSchema,
  eventFrom: z.enum(['now', 'ago', 'at', 'paper', 'instrument']),
  /** The device's clock when the person told it; a message may wait on the device before it is sent. */
  toldAt: InstantSchema.optional(),
  /** The device's clock when it sent the message. */
  sentAt: InstantSchema,
  /** A word why, wanted when the event lies more than 10 minutes back. */
  note: z.string().trim().max(500).optional(),
})
export type EventTime = z.infer<typeof EventTimeSchema>

function isOfFourDigitYear(instant: string): boolean {
  const year = new Date(instant).getUTCFullYear()
  return year >= 1 && year <= 9999
}
