import type { FastifyInstance, FastifyRequest } from 'fastify'
import fp from 'fastify-plugin'
import type { Actor, SignedIn } from './actor.ts'
import type { Identify } from './identify.ts'
import { type Action, isLaboratoryAction, mayDo, permissions } from './permissions.ts'
import { AppError } from './problem.ts'
import { readToken } from './session-cookie.ts'

declare module 'fastify' {
  interface FastifyContextConfig {
    /** What the route does, a line of permissions.ts. */
    action?: Action
    /** A file that the laboratory's own pages show within them. */
    framed?: boolean
  }
  interface FastifyRequest {
    /** The signed-in person in the laboratory of the address. Throws on routes that are not of a laboratory. */
    actor: Actor
    /** The signed-in account. Throws on public routes. */
    signedIn: SignedIn
    /** The session's token when the cookie is ours; it may have ended. */
    sessionToken: string | undefined
  }
  interface FastifyInstance {
    /** Every route with its action, for the access tests and the start's check. */
    namedRoutes: NamedRoute[]
  }
}

export type NamedRoute = { method: string; url: string; config: { action?: Action } }

type AccessOptions = { identify: Identify; cookieName: string; secret: string }

const identities = new WeakMap<FastifyRequest, { signedIn?: SignedIn; actor?: Actor }>()
const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i

/** Refuses to start with a route that names no action, and every request that its action does not allow. */
export const access = fp<AccessOptions>(
  async (app, { identify, cookieName, secret }) => {
    const routes: NamedRoute[] = []
    app.decorate('namedRoutes', routes)
    app.decorateRequest('actor', {
      getter() {
        return known(this, 'actor')
      },
    })
    app.decorateRequest('signedIn', {
      getter() {
        return known(this, 'signedIn')
      },
    })
    app.decorateRequest('sessionToken', {
      getter() {
        return readToken(this.headers.cookie, cookieName, secret)
      },
    })

    app.addHook('onRoute', (route) => {
      for (const method of [route.method].flat()) routes.push({ method, url: route.url, config: (route.config ??= {}) })
    })
    // At ready and not at once: a route of a plugin gets its action from a hook of the plugin's own scope.
    app.addHook('onReady', async () => refuseUnnamed(routes))

    app.addHook('onRequest', async (request, reply) => {
      const { action } = request.routeOptions.config
      if (action === undefined || permissions[action] === 'public') return
      const token = request.sessionToken
      const labId = isLaboratoryAction(action) ? (request.params as { lab: string }).lab : null
      const identity =
        token === undefined ? null : await identify(token, labId !== null && uuid.test(labId) ? labId : null)
      if (!identity)
        throw new AppError(
          'not-signed-in',
          'Sign in first. A session ends after 12 hours, or after an hour without use.',
        )
      const { signedIn, actor } = identity
      // Whose answer it is, for a device that keeps some (apps/web/public/tablet-worker.js): never shown to somebody else.
      void reply.header('x-account', signedIn.accountId)
      if (labId === null) {
        identities.set(request, { signedIn })
        return
      }
      // Before anything that would refuse it for good: it is not this person's.
      if (isOfAnother(request, actor))
        throw new AppError(
          'other-person',
          'Somebody else is signed in on this browser by now. Nothing was stored; it goes when the person who entered it is here again.',
        )
      if (!actor) throw new AppError('not-found', 'There is no such laboratory, or you are not a member of it.')
      if (!mayDo(actor.roles, action)) throw new AppError('not-allowed', refusalOf(actor, action))
      identities.set(request, { signedIn, actor })
    })
  },
  { name: 'access' },
)

/** Whether a request names who entered it, and that is not who is signed in: then it is stored under neither name. */
function isOfAnother({ headers }: FastifyRequest, actor: Actor | null): boolean {
  const named = headers['x-membership']
  return named !== undefined && named !== actor?.membershipId
}

/** Who a request turned out to be from, as far as its action asked. */
export function identityOf(request: FastifyRequest): { signedIn?: SignedIn; actor?: Actor } {
  return identities.get(request) ?? {}
}

function known<Key extends 'actor' | 'signedIn'>(request: FastifyRequest, key: Key) {
  const value = identityOf(request)[key]
  if (value === undefined)
    throw new Error(`The route ${request.routeOptions.url} reads request.${key}, which its action does not give`)
  return value as never
}

/** Who may, and what the person is instead: words for a page, so no name of an action stands in it. */
function refusalOf(actor: Actor, action: Action): string {
  const allowed = permissions[action]
  const others = typeof allowed === 'string' ? [allowed] : allowed
  return `This is for ${listed(others, 'or')}; ${actor.name} is ${listed(actor.roles, 'and')} here.`
}

function listed(names: readonly string[], last: 'or' | 'and'): string {
  const [end = '', ...before] = [...names].reverse()
  return before.length === 0 ? end : `${before.reverse().join(', ')} ${last} ${end}`
}

function refuseUnnamed(routes: NamedRoute[]): void {
  for (const { method, url, config } of routes) {
    const { action } = config
    if (action === undefined || !(action in permissions))
      throw new Error(`The route ${method} ${url} names no action of permissions.ts`)
    if (isLaboratoryAction(action) !== url.startsWith('/api/labs/:lab')) {
      throw new Error(
        `The route ${method} ${url} names “${action}”: an action of a laboratory stands under /api/labs/:lab, and no other does`,
      )
    }
  }
}

/** Gives every route of a scope that names no action this one, for routes that a library makes. */
export function nameActionOf(scope: FastifyInstance, action: Action): void {
  scope.addHook('onRoute', (route) => {
    route.config ??= {}
    route.config.action ??= action
  })
}
