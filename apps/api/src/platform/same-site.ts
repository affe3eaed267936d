import type { FastifyRequest } from 'fastify'
import fp from 'fastify-plugin'
import { AppError } from './problem.ts'

const safe = new Set(['GET', 'HEAD', 'OPTIONS'])

/**
 * Refuses changes that another site's page sends with our cookie: browsers say where a request comes from. Requests of
 * programs, which say nothing, carry no browser's cookie.
 */
export const sameSite = fp<{ publicUrl: string | undefined }>(
  async (app, { publicUrl }) => {
    app.addHook('onRequest', async (request) => {
      if (safe.has(request.method) || isFromHere(request, publicUrl)) return
      throw new AppError(
        'cross-site',
        'This change was sent from a page of another site. Open Curebook itself and do it there.',
      )
    })
  },
  { name: 'same-site' },
)

function isFromHere({ headers, host }: FastifyRequest, publicUrl: string | undefined): boolean {
  const site = headers['sec-fetch-site']
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return false
  if (headers.origin === undefined) return true
  if (!URL.canParse(headers.origin)) return false
  const origin = new URL(headers.origin)
  return (publicUrl !== undefined && origin.origin === new URL(publicUrl).origin) || origin.host === host
}
