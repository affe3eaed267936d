import type { Review } from '@curebook/contract/review'
import { SignedContentSchema, type SignedContent } from '@curebook/contract/signed-content'
import type { WorkContent } from '@curebook/contract/work-content'
import { compareSigned, compareWork, onlyDiffering } from '@curebook/contract/work-comparison'

type Signatures = Review['signatures']

/**
 * The signature that what stands now is held against: the approval, or the last check where none is of the work as it stands.
 * None where exactly what was signed stands.
 */
export function heldAgainst(
  signatures: Signatures,
  { digest, workDigest }: Pick<Review, 'digest' | 'workDigest'>,
): Signatures[number] | undefined {
  const approval = signatures.findLast(({ meaning }) => meaning === 'approved')
  if (approval) return approval.digest === digest ? undefined : approval
  const checks = signatures.filter(({ meaning }) => meaning === 'checked')
  return checks.some((check) => check.digest === workDigest) ? undefined : checks.at(-1)
}

/**
 * Which figures stand otherwise than was signed. An approval is left as it is by whatever is corrected afterwards; a check
 * counts no more once the work is another.
 * @param body exactly what was signed
 */
export function sinceSigned(
  { meaning, name, at }: Signatures[number],
  body: string,
  now: SignedContent,
): Review['sinceSigned'] {
  const undone = meaning === 'checked'
  const signed: unknown = JSON.parse(body)
  const parts = onlyDiffering(
    undone ? compareWork(signed as WorkContent, now) : compareSigned(SignedContentSchema.parse(signed), now),
  )
  if (!undone && parts.length === 0) return null
  return { meaning: undone ? 'checked' : 'approved', name, at, undone, parts }
}
