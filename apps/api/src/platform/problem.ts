import type { ErrorCode, FieldError } from '@curebook/contract/problem'

/** HTTP status of every error code. */
export const statusOf = {
  'invalid-input': 400,
  'not-signed-in': 401,
  // Passes once the right person is signed in again: what waits for them is sent then.
  'other-person': 425,
  'wrong-credentials': 401,
  'second-factor-needed': 401,
  'wrong-password': 403,
  'not-allowed': 403,
  'cross-site': 403,
  'not-found': 404,
  conflict: 409,
  'wrong-state': 409,
  expired: 410,
  'changed-meanwhile': 412,
  'too-large': 413,
  'unsupported-media-type': 415,
  'refused-by-rule': 422,
  'if-match-missing': 428,
  'too-many-requests': 429,
  unexpected: 500,
  'not-ready': 503,
} as const satisfies Record<ErrorCode, number>

/**
 * What a service throws when it cannot do what was asked. `detail` says what, where, and what would be right; `errors` puts
 * sentences beside fields (`rows.1.mass`); `extra` goes into the answer as it is (a conflict: `{ stored, sent }`).
 */
export class AppError extends Error {
  override readonly name = 'AppError'
  readonly code: ErrorCode
  readonly status: number
  readonly errors: FieldError[] | undefined
  readonly extra: Record<string, unknown> | undefined
  readonly headers: Record<string, string> | undefined

  constructor(
    code: ErrorCode,
    detail: string,
    more: {
      errors?: FieldError[]
      extra?: Record<string, unknown>
      headers?: Record<string, string>
      cause?: unknown
    } = {},
  ) {
    super(detail, { cause: more.cause })
    this.code = code
    this.status = statusOf[code]
    this.errors = more.errors
    this.extra = more.extra
    this.headers = more.headers
  }
}

/** Refuses one field: status 400 with the sentence beside it. */
export function invalidField(path: string, message: string): AppError {
  return new AppError('invalid-input', message, { errors: [{ path, message }] })
}

/** No such thing in this laboratory, or not for this person. */
export function notFound(what: string): AppError {
  return new AppError('not-found', `There is no such ${what} in this laboratory.`)
}
