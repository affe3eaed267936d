import { z } from 'zod'
import { IdSchema, InstantSchema, PersonNameSchema } from './common.ts'
import { SpecificationChangeSchema } from './own-specifications.ts'
import { DesignStateSchema } from './projects.ts'
import { NamedVersionSchema, StandingSchema } from './specifications.ts'

/** A project set on one version of a specification. */
export const PinnedSpecificationSchema = z.object({
  id: IdSchema,
  specification: NamedVersionSchema,
  /** Why it took the place of the one before; null for the first. */
  reason: z.string().nullable(),
  by: PersonNameSchema,
  at: InstantSchema,
})
export type PinnedSpecification = z.infer<typeof PinnedSpecificationSchema>

/** What a project stands on, and what has become of that since. */
export const ProjectSpecificationsSchema = z.object({
  /** The newest first: the first one stands, those behind it stood before. Empty where none was set. */
  items: z.array(PinnedSpecificationSchema),
  /** Of the one that stands; null where none was set. */
  standing: StandingSchema.nullable(),
  /** The newest version of its line, where that is another one: it stands for the project only once it is set. */
  newer: NamedVersionSchema.extend({
    by: PersonNameSchema.nullable(),
    at: InstantSchema,
    reason: z.string().nullable(),
    /** Against the version that stands for the project. */
    changes: z.array(SpecificationChangeSchema),
  }).nullable(),
  withdrawn: z.object({ by: PersonNameSchema, at: InstantSchema, reason: z.string() }).nullable(),
  /** This contract's own copies, the newest version of each. */
  copies: z.array(NamedVersionSchema),
  /** Designs whose newest revision is held against another one than stands. */
  others: z.array(
    z.object({
      designId: IdSchema,
      name: z.string(),
      revision: z.number().int(),
      state: DesignStateSchema,
      specification: NamedVersionSchema,
      /** Why, where another one was chosen; null where the project’s was set afterwards. */
      reason: z.string().nullable(),
    }),
  ),
})
export type ProjectSpecifications = z.infer<typeof ProjectSpecificationsSchema>

export const SetProjectSpecificationSchema = z.strictObject({
  id: IdSchema,
  specificationId: IdSchema,
  /** The record that stood when this was decided; null when none did. */
  after: IdSchema.nullable(),
  /** Needed from the second time on. */
  reason: z.string().trim().max(500).optional(),
})
export type SetProjectSpecification = z.infer<typeof SetProjectSpecificationSchema>
