import { newId } from '../../apps/api/src/platform/uuid.ts'
import { testPassword } from '../support/factories/account.ts'
import type { Subjects } from './filled-laboratory.ts'

/**
 * How one route is asked, and what it answers to whoever may: the gate lies before it, so a body that is refused as
 * incomplete shows as well as a deed that the gate is passed.
 */
export type RouteCase = {
  /** Query, with `?`. */
  readonly query?: (subjects: Subjects) => string
  /** What a body names, all of it valid as far as a stranger could know. */
  readonly body?: (subjects: Subjects) => object
  readonly headers?: Readonly<Record<string, string>>
  /** Status for a person whose role may, by the order in which they ask. */
  readonly own: number | readonly number[]
  /**
   * Status when an address of one's own laboratory, or a body in it, names what belongs to another: not found, unless said
   * otherwise. `names nothing`: the route names nothing of a laboratory.
   */
  readonly foreign?: number | 'names nothing'
  /** Where a foreign id is answered with 200, what the answer must say. */
  readonly foreignSays?: string
}

export const nothing = { foreign: 'names nothing' } as const
export const read: RouteCase = { own: 200 }
export const readAll: RouteCase = { own: 200, ...nothing }
export const stale = { headers: { 'if-match': '"99"' } }
export const once = () => ({ headers: { 'idempotency-key': newId() } })
export const now = () => new Date(Date.parse('2026-03-02T08:00:00Z')).toISOString()
export const time = () => ({ eventAt: now(), eventFrom: 'paper', sentAt: now(), note: 'From the notebook' })
export const signature = () => ({ id: newId(), digest: '0'.repeat(64), password: testPassword })
