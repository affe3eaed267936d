import { ApiProblem } from './api-problem.ts'

/** What stands between answers so for a server that is not there (RFC 9110, 15.6.3 to 15.6.5). */
export const gateway: readonly number[] = [502, 503, 504]

/** Whether a status says that no server was reached; 0 is no answer at all. A fault of the server itself (500) is its answer. */
export function isAwayStatus(status: number): boolean {
  return status === 0 || gateway.includes(status)
}

/** Whether something failed because the server was not reached: then it has said nothing, neither yes nor no. */
export function isServerAway(cause: unknown): boolean {
  return cause instanceof ApiProblem && isAwayStatus(cause.status)
}
