export type FieldError = { readonly path: string; readonly message: string }

/** What the server said no with (RFC 9457), or that it could not be reached (`code: 'network'`, status 0). */
export class ApiProblem extends Error {
  override readonly name = 'ApiProblem'
  constructor(
    readonly code: string,
    readonly status: number,
    readonly title: string,
    readonly detail: string,
    readonly errors: readonly FieldError[] = [],
    /** Members beyond the standard ones, for example both values of a conflict. */
    readonly extra: Readonly<Record<string, unknown>> = {},
  ) {
    super(detail === '' ? title : detail)
  }
}

/**
 * Reads a refused answer; a body that is no problem still gives a sentence. One that was cut off on its way says nothing yet:
 * why it was refused would be lost, so that it counts as no answer.
 */
export async function problemOf(response: Response): Promise<ApiProblem> {
  const text = await response.text().catch(() => undefined)
  if (text === undefined)
    return new ApiProblem(
      'network',
      0,
      'The answer of the server was cut off.',
      'The answer of the server was cut off. Try again.',
    )
  const body = parsed(text)
  if (!isRecord(body) || typeof body.title !== 'string') {
    return new ApiProblem('unexpected', response.status, `The server answered ${response.status}.`, '')
  }
  const {
    type,
    code: named,
    title,
    status: _status,
    detail,
    instance: _instance,
    requestId: _requestId,
    errors,
    ...extra
  } = body
  const code =
    typeof named === 'string'
      ? named
      : typeof type === 'string'
        ? (type.split('/').at(-1) ?? 'unexpected')
        : 'unexpected'
  const list = Array.isArray(errors) ? errors.filter(isFieldError) : []
  return new ApiProblem(code, response.status, title as string, typeof detail === 'string' ? detail : '', list, extra)
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

/**
 * Sentences by field path from whatever a save failed with; `form` holds what belongs to no field. A zod error passes too
 * (it has `issues`), so a form judged here and one judged by the server look alike.
 */
export function fieldErrors(error: unknown): Record<string, string> {
  if (error === undefined || error === null) return {}
  if (error instanceof ApiProblem) {
    if (error.errors.length === 0) return { form: error.message }
    return firstOfEach(error.errors.map(({ path, message }) => [path === '' ? 'form' : path, message]))
  }
  if (isRecord(error) && Array.isArray(error.issues)) {
    const issues = error.issues as readonly { path: readonly PropertyKey[]; message: string }[]
    return firstOfEach(
      issues.map(({ path, message }) => [path.length === 0 ? 'form' : path.map(String).join('.'), message]),
    )
  }
  return { form: error instanceof Error ? error.message : String(error) }
}

/** One sentence a field, in the order in which they were found. */
function firstOfEach(entries: readonly (readonly [string, string])[]): Record<string, string> {
  const found: Record<string, string> = {}
  for (const [path, message] of entries) found[path] ??= message
  return found
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
function isFieldError(value: unknown): value is FieldError {
  return isRecord(value) && typeof value.path === 'string' && typeof value.message === 'string'
}
