import { z } from 'zod'

/** Who made an entered result: this laboratory by hand, another laboratory, or the client with a certificate. */
export const MadeBySchema = z.enum(['entered', 'outside', 'customer'])
export type MadeBy = z.infer<typeof MadeBySchema>

/** What must be said with an entered result, by who made it: its observer, or where others wrote it down. */
export function checkMaker(
  found: {
    readonly madeBy: MadeBy
    readonly observedBy: string
    readonly laboratoryName: string
    readonly source: string
  },
  context: z.RefinementCtx,
): void {
  const miss = (path: string, message: string) => context.addIssue({ code: 'custom', path: [path], message })
  if (found.madeBy === 'entered' && found.observedBy === '') miss('observedBy', 'Say who observed it')
  if (found.madeBy === 'outside' && found.laboratoryName === '')
    miss('laboratoryName', 'Name the laboratory that found it')
  if (found.madeBy !== 'entered' && found.source === '') miss('source', 'Name the report or certificate it stands in')
}

/**
 * Whether the source of an entered result says that the laboratory tested it itself: the word "own" comes first. Anything
 * else counts as supplied by others, "Owner's certificate" too: too many marks mislead nobody.
 */
export function isOwnTest(source: string): boolean {
  return /^own\b/i.test(source)
}

/** Whether others answer for a value: as was said when it was entered, or, where nothing was said, by its source. */
export function isSuppliedByOthers({ madeBy, source }: { madeBy?: MadeBy | null; source: string }): boolean {
  return madeBy ? madeBy !== 'entered' : !isOwnTest(source)
}
