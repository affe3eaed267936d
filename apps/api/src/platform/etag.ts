import type { FastifyRequest } from 'fastify'
import { AppError } from './problem.ts'

/** The ETag of a mutable thing: its version. */
export function etagOf(version: number): string {
  return `"${version}"`
}

/** The version that an edit starts from, out of If-Match. */
export function ifMatch(request: FastifyRequest): number {
  const version = /^(?:W\/)?"(\d+)"$/.exec(request.headers['if-match'] ?? '')?.[1]
  if (version === undefined)
    throw new AppError('if-match-missing', 'Send the ETag of what you changed in If-Match, like If-Match: "3".')
  return Number(version)
}

/** Somebody else edited first: 412, with the thing as it stands. */
export function changedMeanwhile(stored: unknown): AppError {
  return new AppError(
    'changed-meanwhile',
    'Somebody changed this since you opened it. Compare with what stands now, and change it again.',
    { extra: { stored } },
  )
}
