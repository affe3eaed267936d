import { ApiProblem, problemOf } from './api-problem.ts'
import { keptAtOf, movedOn, noteAnswer } from './kept-answer.ts'
import { noteServerTime } from './server-clock.ts'

export type Query = Readonly<Record<string, string | number | boolean | undefined>>
export type RequestOptions = {
  readonly query?: Query
  readonly signal?: AbortSignal
  /** Version of the thing as read, for an edit that must not overwrite another's (`If-Match`). */
  readonly ifMatch?: string | number
  /** For acts without an id of their own. */
  readonly idempotencyKey?: string
  /** Who entered this: the server refuses it while somebody else is signed in (`other-person`). */
  readonly membershipId?: string
}

/** GET. Sends nothing twice and retries nothing; throws `ApiProblem`. */
export function getJson<Answer>(path: string, options: RequestOptions = {}): Promise<Answer> {
  return request<Answer>('GET', path, undefined, options)
}
export function postJson<Answer>(path: string, body: unknown = {}, options: RequestOptions = {}): Promise<Answer> {
  return request<Answer>('POST', path, body, options)
}
export function putJson<Answer>(path: string, body: unknown, options: RequestOptions = {}): Promise<Answer> {
  return request<Answer>('PUT', path, body, options)
}
export function patchJson<Answer>(path: string, body: unknown, options: RequestOptions = {}): Promise<Answer> {
  return request<Answer>('PATCH', path, body, options)
}
export function deleteJson<Answer>(path: string, body?: unknown, options: RequestOptions = {}): Promise<Answer> {
  return request<Answer>('DELETE', path, body, options)
}

/** Address of something of one laboratory: `labPath(lab, 'designs', id)` → `/api/labs/<lab>/designs/<id>`. */
export function labPath(labId: string, ...parts: readonly string[]): string {
  return ['/api/labs', labId, ...parts].map((part, index) => (index === 0 ? part : encodeURIComponent(part))).join('/')
}

/** An address with its question, as `getJson` asks it. */
export function addressOf(path: string, query: Query = {}): string {
  return path + searchOf(query)
}

async function request<Answer>(method: string, path: string, body: unknown, options: RequestOptions): Promise<Answer> {
  const headers: Record<string, string> = { accept: 'application/json' }
  if (body !== undefined) headers['content-type'] = 'application/json'
  if (options.ifMatch !== undefined) headers['if-match'] = `"${options.ifMatch}"`
  if (options.idempotencyKey !== undefined) headers['idempotency-key'] = options.idempotencyKey
  if (options.membershipId !== undefined) headers['x-membership'] = options.membershipId
  const response = await fetch(addressOf(path, options.query), {
    method,
    headers,
    credentials: 'same-origin',
    body: body === undefined ? undefined : JSON.stringify(body),
    signal: options.signal,
  }).catch((cause: unknown) => {
    if (options.signal?.aborted) throw cause
    throw new ApiProblem(
      'network',
      0,
      'The server cannot be reached.',
      'The server cannot be reached. Check the network, then try again.',
    )
  })
  const keptAt = keptAtOf(response.headers)
  noteAnswer({ keptAt, status: response.status })
  // The date of a kept answer is that of its keeping.
  if (keptAt === undefined) noteServerTime(response.headers.get('date'))
  if (!response.ok) throw await problemOf(response)
  if (response.status === 204) return undefined as Answer
  const answer = (await response.json()) as Answer
  return keptAt === undefined ? answer : movedOn(answer, keptAt)
}

function searchOf(query: Query): string {
  const search = new URLSearchParams()
  for (const [key, value] of Object.entries(query))
    if (value !== undefined && value !== '') search.set(key, String(value))
  const text = search.toString()
  return text === '' ? '' : `?${text}`
}
