import { z } from 'zod'

/** Every way a request can fail; the last part of a problem's `type`. */
export const ErrorCodeSchema = z.enum([
  'invalid-input',
  'not-signed-in',
  'other-person',
  'wrong-credentials',
  'second-factor-needed',
  'wrong-password',
  'not-allowed',
  'cross-site',
  'not-found',
  'conflict',
  'wrong-state',
  'expired',
  'changed-meanwhile',
  'too-large',
  'unsupported-media-type',
  'refused-by-rule',
  'if-match-missing',
  'too-many-requests',
  'unexpected',
  'not-ready',
])
export type ErrorCode = z.infer<typeof ErrorCodeSchema>

/** A sentence beside a field: `rows.1.mass`, or `form` for the whole. */
export const FieldErrorSchema = z.object({ path: z.string(), message: z.string() })
export type FieldError = z.infer<typeof FieldErrorSchema>

/** A refused request, RFC 9457. `type` is `/problems/<code>`; members beyond these carry what the code needs. */
export const ProblemSchema = z.looseObject({
  type: z.string(),
  title: z.string(),
  status: z.number().int(),
  detail: z.string(),
  instance: z.string(),
  code: ErrorCodeSchema,
  requestId: z.string(),
  errors: z.array(FieldErrorSchema).optional(),
})
export type Problem = z.infer<typeof ProblemSchema>
