import type { Database } from '@curebook/database/open-database'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'
import { AppError } from './problem.ts'

const StateSchema = z.object({ state: z.literal('ok') })

/** Whether the process lives, and whether it can serve: its database answers and it is not closing. */
export const healthRoutes: FastifyPluginAsyncZod<{ database: Database }> = async (app, { database }) => {
  let closing = false
  app.addHook('preClose', async () => {
    closing = true
  })

  const schema = { tags: ['Health'], response: { 200: StateSchema } }
  app.get('/health/live', { config: { action: 'health:read' }, logLevel: 'warn', schema }, async () => ({
    state: 'ok' as const,
  }))

  app.get('/health/ready', { config: { action: 'health:read' }, logLevel: 'warn', schema }, async () => {
    if (closing) throw new AppError('not-ready', 'The server is closing.')
    try {
      await Promise.all([
        within(3000, database.pool.query('select 1')),
        within(3000, database.identityPool.query('select 1')),
      ])
    } catch (cause) {
      throw new AppError('not-ready', 'The database does not answer.', { cause, headers: { 'retry-after': '5' } })
    }
    return { state: 'ok' as const }
  })
}

async function within<T>(milliseconds: number, work: Promise<T>): Promise<T> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`No answer within ${milliseconds} ms`)), milliseconds)
  })
  try {
    return await Promise.race([work, late])
  } finally {
    clearTimeout(timer)
  }
}
