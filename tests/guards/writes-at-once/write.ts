import { of, type api } from '../../statements/statement.ts'

/** A way to write, what it looks at before it writes, what keeps that from changing meanwhile, and the tests that show it. */
export type Write = {
  /** Verb and address of a route, or the command or round that writes without one. */
  readonly write: string
  readonly reads: string
  readonly heldBy: string
  readonly tests: ReturnType<typeof api>
}
/** One line of the list. */
export const row = (write: string, reads: string, heldBy: string, tests: Write['tests']): Write => ({
  ...{ write, reads, heldBy, tests },
})

export const edits = of(
  'apps/api/src/platform/edit.test.ts',
  'at once with another one: one stands, and the other is told what does',
  'sent twice at once is one edit, and sent again after a lost answer too',
)
export const oneName = 'the id; then whether the name or code is free'
export const uniqueName = 'unique index, read again by `createOnce`'
export const takingBack = '%s that found the instrument in service waits for who takes it back, and is refused'
