import type { SignedContent } from './signed-content.ts'

/** What a check is of: the work and what was computed from it, without what the engineer decides afterwards. */
export type WorkContent = Pick<
  SignedContent,
  | 'schema'
  | 'design'
  | 'methods'
  | 'instruments'
  | 'enteredResults'
  | 'gradation'
  | 'specimens'
  | 'corrections'
  | 'deviations'
> & { kind: 'check' }

export function workContent({
  schema,
  design,
  methods,
  instruments,
  enteredResults,
  gradation,
  specimens,
  corrections,
  deviations,
}: SignedContent): WorkContent {
  return {
    kind: 'check',
    schema,
    design,
    methods,
    instruments,
    enteredResults,
    // Left out where there is none: a check given before it was asked for is of the same content.
    ...(gradation === undefined ? {} : { gradation }),
    specimens,
    corrections,
    deviations,
  }
}
