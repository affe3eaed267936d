import { ApiProblem } from '../api-problem.ts'
import { postAs } from '../post-as.ts'
import type { OutboxEntry } from './outbox-entry.ts'
import { outcomesIn } from './together.ts'

/** So long a request may be under way, and longer by its size: a photograph over a poor line still arrives (our own choice, no source). */
const LIMIT_MS = 30_000
const SLOWEST_BYTES_A_MS = 16

/**
 * Sends an entry under the name of who made it: whoever is signed in by then may be somebody else. A request that hangs is
 * given up after `limitMs` as no answer; should it arrive all the same, its id tells the server that it is the same one.
 */
export async function sendEntry(
  { path, body, membershipId }: Pick<OutboxEntry, 'path' | 'body' | 'membershipId'>,
  limitMs: number = LIMIT_MS + JSON.stringify(body).length / SLOWEST_BYTES_A_MS,
) {
  const signal = AbortSignal.timeout(Math.ceil(limitMs))
  const answer = await postAs<unknown>({ membershipId }, path, body, { signal }).catch((cause: unknown) => {
    if (!signal.aborted) throw cause
    const sentence = 'The server did not answer in time.'
    throw new ApiProblem('network', 0, sentence, `${sentence} It is sent again.`)
  })
  const sentences = outcomesIn(answer).flatMap(({ outcome, sentence }) =>
    outcome === 'refused' && typeof sentence === 'string' ? [sentence] : [],
  )
  // An act for many answers row by row. A row that was refused is stored nowhere: it must not leave the device as if it were.
  if (sentences.length > 0) throw new ApiProblem('refused-rows', 200, sentences.join(' '), '', [], { answer })
  return answer
}
