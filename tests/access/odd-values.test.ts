import type { Role } from '@curebook/contract/common'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { NamedRoute } from '../../apps/api/src/platform/access.ts'
import { mayDo } from '../../apps/api/src/platform/permissions.ts'
import { newId } from '../../apps/api/src/platform/uuid.ts'
import { startTestApp, type TestApp } from '../support/app.ts'
import { filledLaboratory, type FilledLaboratory } from './filled-laboratory.ts'
import { laboratoryCases, publicCases, type RouteCase } from './route-cases.ts'

vi.setConfig({ testTimeout: 600_000, hookTimeout: 600_000 })

/** What nobody types and somebody sends: text without a form in UTF-8, days that no calendar has, numbers without an end. */
const oddTexts = [
  'a\0b',
  '\ud800',
  '0000-01-01T00:00:00Z',
  '9999-12-31T23:59:59-23:00',
  '1e400',
  '9'.repeat(20),
  `0.${'3'.repeat(180)}`,
]
const oddNumbers = [-1, 1.5, 2 ** 31, 1e308]
/** Of an address each field is one text. */
const oddQuestions = ['a\0b', '9'.repeat(20), '-1', Buffer.from('9999 -').toString('base64url')]
const roles = ['manager', 'engineer', 'technician', 'auditor', 'client'] as const satisfies readonly Role[]
const prefix = '/api/labs/:lab'

let testApp: TestApp
let home: FilledLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  home = await filledLaboratory(testApp)
})
afterAll(() => testApp.close())

/** The body with one of its values another, once for each value and each odd one; ids of its own each time. */
function* oddBodies(make: () => unknown): Generator<{ body: unknown; what: string }> {
  for (const place of placesOf(make())) {
    const odd = typeof place.value === 'number' ? oddNumbers : oddTexts
    for (const value of odd) {
      const body = make()
      set(body, place.names, value)
      yield { body, what: `${place.names.join('.')} = ${JSON.stringify(value).slice(0, 40)}` }
    }
  }
}

function placesOf(value: unknown, names: string[] = []): { names: string[]; value: string | number }[] {
  if (typeof value === 'string' || typeof value === 'number') return [{ names, value }]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([name, member]) => placesOf(member, [...names, name]))
}

function set(body: unknown, names: readonly string[], value: unknown): void {
  const [last, ...before] = [...names].reverse()
  const holder = before.reverse().reduce((at, name) => (at as Record<string, unknown>)[name], body)
  ;(holder as Record<string, unknown>)[last!] = value
}

async function ask(route: NamedRoute, entry: RouteCase, cookie: string | undefined, body: unknown, query = '') {
  const address = route.url.replace(
    /:(\w+)/g,
    (_, name: string) => (home.subjects as Record<string, string>)[name] ?? newId(),
  )
  const leave = new AbortController()
  const answer = await fetch(`${testApp.url}${address}${query}`, {
    method: route.method,
    headers: {
      ...(cookie === undefined ? {} : { cookie }),
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      ...entry.headers,
    },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    signal: leave.signal,
  })
  const isStream = answer.headers.get('content-type')?.startsWith('text/event-stream') ?? false
  const text = isStream ? '' : await answer.text()
  if (isStream) leave.abort()
  return { status: answer.status, text }
}

/** Whether the machine is quick enough is no matter here. */
const isRead = ({ route: { method, url } }: { route: NamedRoute }) => method === 'GET' && !url.startsWith('/health/')

const routes = () =>
  testApp.app.namedRoutes.flatMap((route) => {
    const isOfLaboratory = route.url.startsWith(prefix)
    const name = `${route.method} ${isOfLaboratory ? route.url.slice(prefix.length) || '/' : route.url}`
    const entry = isOfLaboratory ? laboratoryCases[name] : publicCases[name]
    if (!entry) return []
    const role = isOfLaboratory ? roles.find((one) => mayDo([one], route.config.action!)) : undefined
    return [{ route, entry, name, cookie: role && home.lab.people[role].cookie }]
  })

describe('odd values', () => {
  it('in any field of any request are answered with a sentence, never with a fault of ours', async () => {
    const wrong: string[] = []
    for (const { route, entry, name, cookie } of routes()) {
      if (!entry.body) continue
      for (const { body, what } of oddBodies(() => entry.body!(home.subjects))) {
        const { status, text } = await ask(route, entry, cookie, body, entry.query?.(home.subjects))
        if (status >= 500) wrong.push(`${name}, ${what}: ${status} ${text.slice(0, 120)}`)
      }
    }
    expect(wrong).toEqual([])
  })

  it('in any question are answered with a sentence', async () => {
    const wrong: string[] = []
    const names = ['q', 'cursor', 'revision', 'subjectId']
    for (const { route, entry, name, cookie } of routes().filter(isRead)) {
      for (const value of oddQuestions)
        for (const field of names) {
          const { status, text } = await ask(route, entry, cookie, undefined, `?${field}=${encodeURIComponent(value)}`)
          if (status >= 500) wrong.push(`${name}, ${field} = ${value.slice(0, 40)}: ${status} ${text.slice(0, 120)}`)
        }
    }
    expect(wrong).toEqual([])
  })

  it('that were taken leave every page readable', async () => {
    const wrong: string[] = []
    for (const { route, entry, name, cookie } of routes().filter(isRead)) {
      const { status, text } = await ask(route, entry, cookie, undefined, entry.query?.(home.subjects))
      if (status >= 500) wrong.push(`${name}: ${status} ${text.slice(0, 120)}`)
    }
    expect(wrong).toEqual([])
  })

  it('nested as deep as a body is long are refused', async () => {
    const depth = 250_000
    const answer = await home.lab
      .as('engineer')
      .post(home.lab.path('/clients'))
      .set('content-type', 'application/json')
      .send(`{"id":"${newId()}","name":${'['.repeat(depth)}${']'.repeat(depth)}}`)
    expect(answer.status).toBe(400)
  })

  it('that would reach into what every object inherits are refused', async () => {
    for (const body of ['{"__proto__":{"roles":["manager"]}}', '{"constructor":{"prototype":{"roles":["manager"]}}}'])
      await home.lab
        .as('engineer')
        .post(home.lab.path('/clients'))
        .set('content-type', 'application/json')
        .send(body)
        .expect(400)
    expect(({} as { roles?: unknown }).roles).toBeUndefined()
  })
})
