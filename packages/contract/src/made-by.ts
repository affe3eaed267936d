import { z } from 'zod'

/** Who made an entered result: this laboratory by hand, another laboratory, or the client with a certificate. */
export const MadeBySchema = z.enum(['entered', 'outside', 'customer'])
export type MadeBy = z.infer<typeof MadeBySchema>

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
