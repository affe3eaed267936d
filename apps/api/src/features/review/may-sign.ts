import type { PersonName } from '@curebook/contract/common'
import type { DesignState } from '@curebook/contract/projects'
import type { Recommendation } from '@curebook/contract/recommendations'
import type { ReviewPoint, Signature } from '@curebook/contract/review'
import type { Actor } from '#platform/actor'

export type SignerFacts = {
  readonly actor: Actor
  readonly state: DesignState
  readonly recommendation: Recommendation | null
  readonly points: readonly ReviewPoint[]
  /** Who did the work or entered a value that it is computed with. */
  readonly doneBy: readonly PersonName[]
  /** Whether anything was read or done at the bench. */
  readonly begun: boolean
  readonly signatures: readonly (Signature & { signerId: string })[]
  readonly workDigest: string
  /** Why the actor is not authorised today, where the laboratory has authorised anybody by name. */
  readonly notAuthorised: { readonly check: string | null; readonly approve: string | null }
}
type May = { allowed: boolean; sentence: string }

const no = (sentence: string): May => ({ allowed: false, sentence })
const yes = (sentence: string): May => ({ allowed: true, sentence })

/** Who may say that the work is right: a manager or engineer who did none of it. */
export function mayCheck(facts: SignerFacts): May {
  const { actor, state, points, doneBy, begun, signatures, workDigest, notAuthorised } = facts
  if (!actor.roles.some((role) => role === 'manager' || role === 'engineer'))
    return no('A manager or an engineer checks the work.')
  if (notAuthorised.check) return no(`${notAuthorised.check} A manager authorises people under People.`)
  if (state === 'approved') return no('This revision is approved.')
  if (!begun) return no('Nothing has been done yet that could be checked.')
  if (doneBy.some(({ membershipId }) => membershipId === actor.membershipId))
    return no('You did part of this work; somebody else checks it.')
  const blocking = points.filter((point) => point.blocking)
  if (blocking.length > 0) return no(`Not settled yet: ${blocking[0]!.sentence}${more(blocking.length)}`)
  const checked = signatures.find(({ meaning, digest }) => meaning === 'checked' && digest === workDigest)
  if (checked) return no(`${checked.name} has checked exactly this work.`)
  return yes('You did none of this work. Your signature says that you checked it.')
}

/** Who may approve: an engineer who did not check, when nothing is open any more. */
export function mayApprove(facts: SignerFacts): May {
  const { actor, state, recommendation, points, signatures, workDigest, notAuthorised } = facts
  if (!actor.roles.includes('engineer')) return no('An engineer approves.')
  if (notAuthorised.approve) return no(`${notAuthorised.approve} A manager authorises people under People.`)
  if (state === 'approved') return no('This revision is approved.')
  if (!recommendation) return no('No content is recommended yet.')
  if (state !== 'in-review')
    return no('This revision is not in review: settle what it was sent back for, and recommend again.')
  const open = points.filter(({ blocking, acknowledged }) => blocking || acknowledged === null)
  if (open.length > 0)
    return no(
      `${open.length} ${open.length === 1 ? 'point waits' : 'points wait'} to be settled: ${open[0]!.sentence}${more(open.length)}`,
    )
  const checks = signatures.filter(({ meaning, digest }) => meaning === 'checked' && digest === workDigest)
  if (checks.length === 0)
    return no('The work has not been checked as it stands now. Somebody who did none of it checks it first.')
  if (checks.every(({ signerId }) => signerId === actor.membershipId))
    return no('You checked this work; another engineer approves it.')
  return yes('Your signature approves exactly this content. Nothing of this revision changes afterwards.')
}

function more(count: number): string {
  return count > 1 ? ` And ${count - 1} more.` : ''
}
