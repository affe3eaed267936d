import type { ErrorCode, FieldError, Problem } from '@curebook/contract/problem'
import type { FastifyReply, FastifyRequest } from 'fastify'
import fp from 'fastify-plugin'
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod'
import { problemOfDatabase } from './database-errors.ts'
import { AppError } from './problem.ts'

const titles: Record<ErrorCode, string> = {
  'invalid-input': 'Something entered is not right',
  'not-signed-in': 'Not signed in',
  'other-person': 'Somebody else is signed in',
  'wrong-credentials': 'E-mail address or password is wrong',
  'second-factor-needed': 'The second factor is needed',
  'wrong-password': 'The password is wrong',
  'not-allowed': 'Not allowed for this role',
  'cross-site': 'Sent from another site',
  'not-found': 'Not found',
  conflict: 'Two values for one thing',
  'wrong-state': 'Not possible at this stage',
  expired: 'No longer valid',
  'changed-meanwhile': 'Changed by somebody else',
  'too-large': 'Too large',
  'unsupported-media-type': 'Not JSON',
  'refused-by-rule': 'Refused by a rule',
  'if-match-missing': 'The version is missing',
  'too-many-requests': 'Too many requests',
  unexpected: 'A fault of the product',
  'not-ready': 'Not ready',
}

/** The one place that makes an error's body, RFC 9457. What is a defect of ours is logged whole and answered without detail. */
export const problemHandler = fp(
  async (app) => {
    app.setErrorHandler((error, request, reply) => {
      const failure = failureOf(error)
      if (failure.status >= 500) request.log.error({ err: error }, 'request failed')
      return sendProblem(request, reply, failure)
    })
    app.setNotFoundHandler((request, reply) =>
      sendProblem(
        request,
        reply,
        new AppError('not-found', `There is nothing at ${request.method} ${pathOf(request)}.`),
      ),
    )
  },
  { name: 'problem-handler' },
)

export function sendProblem(request: FastifyRequest, reply: FastifyReply, failure: AppError) {
  const problem: Problem = {
    ...failure.extra,
    type: `/problems/${failure.code}`,
    title: titles[failure.code],
    status: failure.status,
    detail: failure.message,
    instance: pathOf(request),
    code: failure.code,
    requestId: request.id,
    ...(failure.errors && { errors: failure.errors }),
  }
  return (
    reply
      .code(failure.status)
      .headers(failure.headers ?? {})
      .type('application/problem+json')
      // The body is a problem whatever the route's response schemas say.
      .serializer((body: unknown) => JSON.stringify(body))
      .send(problem)
  )
}

function failureOf(error: unknown): AppError {
  if (error instanceof AppError) return error
  if (hasZodFastifySchemaValidationErrors(error)) {
    const errors = error.validation.map((issue): FieldError => ({
      path: pathOfPointer(issue.instancePath),
      message: issue.message ?? 'Not right',
    }))
    return new AppError(
      'invalid-input',
      errors.map(({ path, message }) => (path === 'form' ? message : `${path}: ${message}`)).join('; '),
      { errors },
    )
  }
  return problemOfFastify(error) ?? problemOfDatabase(error) ?? unexpected(error)
}

function unexpected(error: unknown): AppError {
  return new AppError(
    'unexpected',
    'Something went wrong here. Nothing was saved; try again, and name the request’s number if it stays.',
    { cause: error },
  )
}

function problemOfFastify(error: unknown): AppError | undefined {
  const { statusCode, code, message } = error as { statusCode?: number; code?: string; message?: string }
  if (statusCode === 413) return new AppError('too-large', 'The request is larger than this address takes.')
  if (statusCode === 415) return new AppError('unsupported-media-type', 'Send JSON: Content-Type application/json.')
  if (statusCode === 400 && typeof code === 'string' && code.startsWith('FST_ERR'))
    return new AppError('invalid-input', `The request cannot be read: ${message}`)
  if (error instanceof SyntaxError && statusCode === 400)
    return new AppError('invalid-input', 'The request’s body is not JSON.')
  return undefined
}

/** `/rows/1/mass` → `rows.1.mass`; the whole body → `form`. */
function pathOfPointer(pointer: string): string {
  const parts = pointer.split('/').filter((part) => part !== '')
  return parts.length === 0 ? 'form' : parts.map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~')).join('.')
}

function pathOf(request: FastifyRequest): string {
  return request.url.split('?', 1)[0]!
}
