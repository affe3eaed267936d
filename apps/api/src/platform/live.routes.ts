import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { ServerResponse } from 'node:http'
import type { Actor } from './actor.ts'
import type { Identify } from './identify.ts'
import { labParams } from './lab-params.ts'
import type { Live } from './live.ts'

export type LiveRoutesOptions = { live: Live; identify: Identify; pingMs?: number; recheckMs?: number }

/** From the order to cut a device off to the look whether this is the one (ms). */
const cutOffMs = 500

/** The stream of what changed in a laboratory: `id` is the ledger's number, `data` is `{ seq, topics }`. */
export const liveRoutes: FastifyPluginAsyncZod<LiveRoutesOptions> = async (
  app,
  { live, identify, pingMs = 15_000, recheckMs = 60_000 },
) => {
  const streams = new Set<ServerResponse>()
  // Before the server waits for its connections, which a stream would never let go.
  app.addHook('preClose', async () => streams.forEach((stream) => stream.end()))

  app.get(
    '/events',
    {
      config: { action: 'live:read' },
      schema: {
        operationId: 'readLiveEvents',
        tags: ['Live'],
        params: labParams(),
        response: { '4xx': ProblemSchema },
      },
    },
    async (request, reply) => {
      const { actor, signedIn } = request
      const lastSeen = Number(request.headers['last-event-id'])
      const after = Number.isSafeInteger(lastSeen) && lastSeen > 0 ? lastSeen : undefined
      const stream = reply.raw
      let soon: NodeJS.Timeout | undefined
      // Ended, the stream may stand a while until its last words are through; nothing is said behind them.
      const say = (text: string) => void (stream.writableEnded || stream.write(text))
      for (const [name, value] of Object.entries(reply.getHeaders()))
        if (value !== undefined) stream.setHeader(name, value)
      const { from, end } = await live.subscribe(actor, after, (event) => {
        say(`id: ${event.seq}\ndata: ${JSON.stringify(event)}\n\n`)
        // A device was cut off: it may be this one. The order is carried out right after it is on record.
        if (event.topics.includes('signed-in')) soon = setTimeout(() => void closeWhenChanged(), cutOffMs)
      })
      reply.hijack()
      // Gone while the ledger was asked: nobody would ever end it.
      if (stream.destroyed) {
        end()
        return
      }
      const ping = setInterval(() => say(': \n\n'), pingMs)
      const recheck = setInterval(() => void closeWhenChanged(), recheckMs)
      const closeWhenChanged = async () => {
        const identity = await identify(signedIn.token, actor.labId).catch(() => undefined)
        // Undefined: the database does not answer, which says nothing of the session.
        if (identity === undefined || sameRights(actor, identity?.actor ?? null)) return
        if (!stream.writableEnded) stream.end('event: ended\ndata: {}\n\n')
      }
      streams.add(stream)
      stream.on('close', () => {
        clearInterval(ping)
        clearInterval(recheck)
        clearTimeout(soon)
        streams.delete(stream)
        end()
      })
      stream.writeHead(200, {
        'content-type': 'text/event-stream; charset=utf-8',
        'cache-control': 'no-cache, no-transform',
        'x-accel-buffering': 'no',
      })
      // The number at once: a browser cut off before the first event then asks for what it missed.
      stream.write(`retry: 2000\nid: ${from}\n\n`)
    },
  )
}

function sameRights(before: Actor, now: Actor | null): boolean {
  return now !== null && now.clientId === before.clientId && now.roles.join() === before.roles.join()
}
