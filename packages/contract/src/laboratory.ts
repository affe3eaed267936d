import { z } from 'zod'
import { DaySchema, IdSchema, RoleSchema } from './common.ts'
import { WallNamesSchema } from './wall-names.ts'

const TimeOfDaySchema = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'A time of day, like 07:30')

/** Days when nobody works: weekdays (1 Monday … 7 Sunday) and single dates. */
export const ClosedDaysSchema = z.strictObject({
  weekdays: z.array(z.number().int().min(1).max(7)).max(6, 'Leave at least one working day'),
  dates: z.array(DaySchema).max(200),
})
export type ClosedDays = z.infer<typeof ClosedDaysSchema>

export const ShiftSchema = z
  .strictObject({ from: TimeOfDaySchema, to: TimeOfDaySchema })
  .refine(({ from, to }) => from !== to, { path: ['to'], message: 'A shift ends at another time than it starts' })
export type Shift = z.infer<typeof ShiftSchema>

/** Times of day when nobody is at the machine. */
export const BreakSchema = z
  .strictObject({ from: TimeOfDaySchema, to: TimeOfDaySchema })
  .refine(({ from, to }) => from !== to, { path: ['to'], message: 'A break ends at another time than it starts' })
export type Break = z.infer<typeof BreakSchema>

/** IANA name of a time zone. */
export const ZoneSchema = z
  .string()
  .max(100)
  .refine(isZone, 'A time zone is named by its region and city, like Europe/London')

const settings = {
  name: z.string().trim().min(1, 'Enter the laboratory’s name').max(200),
  address: z.string().trim().max(1000),
  contact: z.string().trim().max(500),
  zone: ZoneSchema,
  closedDays: ClosedDaysSchema,
  shifts: z.array(ShiftSchema).min(1, 'Enter at least one shift').max(6),
  breaks: z.array(BreakSchema).max(6, 'Enter at most six breaks'),
  /** Units shown first. */
  units: z.enum(['si', 'us']),
  decimalSign: z.enum(['point', 'comma']),
  language: z.enum(['en']),
  paper: z.enum(['a4', 'letter']),
  wallNames: WallNamesSchema,
  /** What an accreditation body allows to be printed, word for word. */
  accreditation: z.string().trim().max(1000).nullable(),
}

export const LaboratorySettingsSchema = z.object(settings)
export type LaboratorySettings = z.infer<typeof LaboratorySettingsSchema>

/** Stands in the address of every page: `/l/<short name>/…`. */
export const ShortNameSchema = z
  .string()
  .regex(/^[a-z0-9]([a-z0-9-]{0,38}[a-z0-9])?$/, 'Small letters, digits and hyphens, like tern-hollow')

/** A laboratory as its member sees it: settings, own roles, and what they may do. */
export const LaboratorySchema = z.object({
  id: IdSchema,
  shortName: z.string(),
  ...settings,
  version: z.number().int(),
  me: z.object({
    membershipId: IdSchema,
    name: z.string(),
    initials: z.string(),
    roles: z.array(RoleSchema),
    clientId: IdSchema.nullable(),
  }),
  /** `<feature>:<verb>`, the actions open to the signed-in person. */
  actions: z.array(z.string()),
})
export type LaboratoryView = z.infer<typeof LaboratorySchema>

export const UpdateLaboratorySchema = z.strictObject(settings).partial()
export type UpdateLaboratory = z.infer<typeof UpdateLaboratorySchema>

function isZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).format(0) !== ''
  } catch {
    return false
  }
}
