import { ApiProblem } from '#lib/api-problem.ts'

/** What a request failed with, in the server's sentence about its field where there is one. */
export function wordsOfFailure(cause: unknown): string {
  if (cause instanceof ApiProblem) return cause.errors[0]?.message ?? cause.message
  return cause instanceof Error ? cause.message : String(cause)
}
