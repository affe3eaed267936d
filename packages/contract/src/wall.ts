import { z } from 'zod'
import { IdSchema, InstantSchema, PersonNameSchema } from './common.ts'
import { WallNamesSchema } from './wall-names.ts'

/** A wall screen as the manager sees it in the list. */
export const WallScreenSchema = z.object({
  id: IdSchema,
  name: z.string(),
  by: PersonNameSchema,
  at: InstantSchema,
  /** `waiting`: its code has not been typed on any browser yet. */
  state: z.enum(['waiting', 'paired', 'ended']),
  /** Until when the code that was made last can be typed; null once it was, or when it has run out. */
  codeUntil: InstantSchema.nullable(),
  pairedAt: InstantSchema.nullable(),
  /** When it last looked, to the minute. */
  seenAt: InstantSchema.nullable(),
  ended: z.object({ at: InstantSchema, by: PersonNameSchema }).nullable(),
})
export type WallScreen = z.infer<typeof WallScreenSchema>

export const MakeWallScreenSchema = z.strictObject({
  id: IdSchema,
  name: z.string().trim().min(1, 'Name the screen by where it hangs, like Bench room').max(60),
})
export type MakeWallScreen = z.infer<typeof MakeWallScreenSchema>

export const MakeWallCodeSchema = z.strictObject({ id: IdSchema })
export type MakeWallCode = z.infer<typeof MakeWallCodeSchema>

/** The one answer that shows the code; null when the same request came again. */
export const MadeWallCodeSchema = z.object({ screen: WallScreenSchema, code: z.string().nullable() })
export type MadeWallCode = z.infer<typeof MadeWallCodeSchema>

/** The code as typed: letter case, spaces and dashes do not matter. */
export const PairWallSchema = z.strictObject({
  code: z
    .string()
    .max(60)
    .regex(/^[^A-Za-z0-9]*(?:[A-Za-z0-9][^A-Za-z0-9]*){8}$/, 'The code has eight signs, like 7KDM-4QX9'),
})
export type PairWall = z.infer<typeof PairWallSchema>

export const PairedWallSchema = z.object({ name: z.string() })

/** A specimen's window: no project, no client, no result stands in it. */
export const WallWindowSchema = z.object({
  code: z.string(),
  label: z.string(),
  stepTitle: z.string(),
  place: z.string().nullable(),
  opensAt: InstantSchema.nullable(),
  closesAt: InstantSchema.nullable(),
})
export type WallWindow = z.infer<typeof WallWindowSchema>

/** An oven or bath with what stands inside. */
export const WallOvenSchema = z.object({
  code: z.string(),
  name: z.string(),
  kind: z.enum(['oven', 'bath']),
  count: z.number().int(),
  /** Since when the first of them stands there. */
  since: InstantSchema.nullable(),
  /** What comes out next: how many, from when, and until when at the latest. */
  out: z
    .object({ count: z.number().int(), opensAt: InstantSchema.nullable(), closesAt: InstantSchema.nullable() })
    .nullable(),
  /** What those inside ask for: `25 ± 1 °C`. */
  limits: z.array(z.object({ target: z.string(), tolerance: z.string(), unit: z.string() })),
  /** The last value of its log; `outside` is null when nothing stood inside then. */
  last: z
    .object({ typed: z.string(), unit: z.string(), at: InstantSchema, outside: z.boolean().nullable() })
    .nullable(),
})
export type WallOven = z.infer<typeof WallOvenSchema>

/** Somebody at work: the step of their last record, where, since when. */
export const WallPersonSchema = z.object({
  shownAs: z.string(),
  stepTitle: z.string(),
  place: z.string().nullable(),
  since: InstantSchema,
  lastAt: InstantSchema,
})
export type WallPerson = z.infer<typeof WallPersonSchema>

/** What a wall screen reads; `unpaired` and `ended` hold nothing of any laboratory. */
export const WallSchema = z.discriminatedUnion('state', [
  z.object({ state: z.literal('unpaired') }),
  z.object({ state: z.literal('ended'), screen: z.string() }),
  z.object({
    state: z.literal('shown'),
    /** The server's version: a page that hangs for months loads itself anew when it changes. */
    build: z.string(),
    screen: z.string(),
    laboratory: z.string(),
    now: InstantSchema,
    zone: z.string(),
    language: z.string(),
    decimalSign: z.enum(['point', 'comma']),
    names: WallNamesSchema,
    windows: z.array(WallWindowSchema),
    ovens: z.array(WallOvenSchema),
    /** Empty where the laboratory shows nobody; `atWork` counts them all the same. */
    people: z.array(WallPersonSchema),
    atWork: z.number().int(),
  }),
])
export type Wall = z.infer<typeof WallSchema>
export type WallShown = Extract<Wall, { state: 'shown' }>
