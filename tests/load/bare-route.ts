import type { Database } from '@curebook/database/open-database'
import fastify from 'fastify'
import pg from 'pg'
import type { TestApp } from '../support/app.ts'
import { newId } from '../../apps/api/src/platform/uuid.ts'

/** The login under which the product's own statements go. */
export const loginOf = ({ config }: TestApp): string => new URL(config.secrets.appUrl).username

export type Statement = { readonly text: string; readonly values: readonly unknown[] }

/**
 * The statements that work sends as this login, whatever driver it goes through, in their order. The sealer, which runs beside,
 * has a login of its own.
 */
export async function statementsOf(login: string, work: () => Promise<unknown>): Promise<Statement[]> {
  const statements: Statement[] = []
  const prototype = pg.Client.prototype as unknown as { query: (...given: unknown[]) => unknown }
  const query = prototype.query
  prototype.query = function (this: { user?: string }, ...given: unknown[]) {
    const [first, second] = given
    const config =
      typeof first === 'string' ? { text: first, values: second } : (first as { text: string; values?: unknown })
    if (this.user === login)
      statements.push({ text: config.text, values: Array.isArray(config.values) ? config.values : [] })
    return query.apply(this, given)
  }
  try {
    await work()
  } finally {
    prototype.query = query
  }
  return statements
}

const id = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}$/

/** The same values for another subject: ids made since `since` become ids of their own, those in `known` what it says. */
export function valuesFor(values: readonly unknown[], known: Map<string, string>, since: number): unknown[] {
  const other = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(other)
    if (typeof value !== 'string' || !id.test(value)) return value
    const held = known.get(value)
    if (held !== undefined) return held
    if (Number.parseInt(value.slice(0, 8) + value.slice(9, 13), 16) < since) return value
    const fresh = newId()
    known.set(value, fresh)
    return fresh
  }
  return values.map(other)
}

/**
 * A route that does nothing but send statements, all at once over one connection of the product's own pool: no sign-in, no
 * check of the body, no computation. Its body says which.
 */
export async function startBareRoute({ pool }: Database, statementsFor: (body: Record<string, string>) => Statement[]) {
  const app = fastify({ logger: { level: 'error' } })
  app.post('/', async (request, reply) => {
    const statements = statementsFor(request.body as Record<string, string>)
    const client = await pool.connect()
    try {
      const answers = await Promise.all(statements.map(({ text, values }) => client.query(text, [...values])))
      return await reply.code(201).send({ rows: answers.map(({ rows }) => rows as unknown[]) })
    } finally {
      client.release()
    }
  })
  return { app, url: await app.listen({ host: '127.0.0.1', port: 0 }) }
}
