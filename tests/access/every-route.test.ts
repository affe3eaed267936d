import type { Role } from '@curebook/contract/common'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { mayDo, permissions } from '../../apps/api/src/platform/permissions.ts'
import type { NamedRoute } from '../../apps/api/src/platform/access.ts'
import { newId } from '../../apps/api/src/platform/uuid.ts'
import { startTestApp, type TestApp } from '../support/app.ts'
import { makePerson, type PersonKey, type TestPerson } from '../support/factories/laboratory.ts'
import { filledLaboratory, type FilledLaboratory, type Subjects } from './filled-laboratory.ts'
import { accountCases, laboratoryCases, publicCases, type RouteCase } from './route-cases.ts'

vi.setConfig({ testTimeout: 600_000, hookTimeout: 600_000 })

const roles = ['manager', 'technician', 'engineer', 'auditor', 'client'] as const satisfies readonly (Role &
  PersonKey)[]
const prefix = '/api/labs/:lab'

let testApp: TestApp
let home: FilledLaboratory
let other: FilledLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  home = await filledLaboratory(testApp)
  other = await filledLaboratory(testApp)
})
afterAll(() => testApp.close())

type Answer = { status: number; code: string; text: string }
const nameOf = ({ method, url }: Pick<NamedRoute, 'method' | 'url'>) => `${method} ${url}`
/** Pages of the contract's reader, made by a library; all of them public. */
const isDocument = ({ config }: NamedRoute) => config.action === 'docs:read'
const routesOf = (kind: 'laboratory' | 'signed-in' | 'public') =>
  testApp.app.namedRoutes.filter((route) => {
    const allowed = permissions[route.config.action!]
    return !isDocument(route) && (kind === 'laboratory' ? typeof allowed !== 'string' : allowed === kind)
  })
const below = ({ method, url }: NamedRoute) => `${method} ${url.slice(prefix.length) || '/'}`

/** Sends one request; a stream is left as soon as it answers. */
async function ask(
  route: NamedRoute,
  entry: RouteCase,
  subjects: Subjects,
  person?: Pick<TestPerson, 'cookie'>,
): Promise<Answer> {
  const address = route.url.replace(
    /:(\w+)/g,
    (_, name: string) => (subjects as Record<string, string>)[name] ?? newId(),
  )
  const leave = new AbortController()
  const response = await fetch(`${testApp.url}${address}${entry.query?.(subjects) ?? ''}`, {
    method: route.method,
    headers: {
      ...(person ? { cookie: person.cookie } : {}),
      ...(entry.body ? { 'content-type': 'application/json' } : {}),
      ...entry.headers,
    },
    ...(entry.body ? { body: JSON.stringify(entry.body(subjects)) } : {}),
    redirect: 'manual',
    signal: leave.signal,
  })
  const isStream = response.headers.get('content-type')?.startsWith('text/event-stream') ?? false
  const text = isStream ? '' : await response.text()
  if (isStream) leave.abort()
  const isProblem = response.headers.get('content-type')?.startsWith('application/problem+json') ?? false
  return { status: response.status, code: isProblem && text ? (JSON.parse(text) as { code: string }).code : '', text }
}

/** Own ids in another laboratory's address, or another's ids in one's own. */
const inAddressOf = (lab: FilledLaboratory, { subjects }: FilledLaboratory): Subjects => ({
  ...subjects,
  lab: lab.subjects.lab,
})

describe('every route', () => {
  it('has a case here, and no case is of a route that is gone', () => {
    expect(routesOf('laboratory').map(below).sort()).toEqual(Object.keys(laboratoryCases).sort())
    expect(routesOf('signed-in').map(nameOf).sort()).toEqual(Object.keys(accountCases).sort())
    expect(routesOf('public').map(nameOf).sort()).toEqual(Object.keys(publicCases).sort())
  })

  it('of a laboratory is open to the roles of its line in the table and to no other, signed-out least of all', async () => {
    const wrong: string[] = []
    for (const [name, entry] of Object.entries(laboratoryCases)) {
      const route = routesOf('laboratory').find((candidate) => below(candidate) === name)!
      const open = [entry.own].flat()
      const signedOut = await ask(route, entry, home.subjects)
      if (signedOut.code !== 'not-signed-in') wrong.push(`${name}, signed out: ${signedOut.status} ${signedOut.code}`)
      for (const role of roles) {
        const answer = await ask(route, entry, home.subjects, home.lab.people[role])
        const allowed = mayDo([role], route.config.action!)
        if (allowed ? !open.includes(answer.status) : answer.status !== 403 || answer.code !== 'not-allowed')
          wrong.push(
            `${name}, ${role}${allowed ? '' : ' (not allowed)'}: ${answer.status} ${answer.text.slice(0, 200)}`,
          )
      }
    }
    expect(wrong).toEqual([])
  })

  it('of another laboratory finds none, whatever role one has in one’s own', async () => {
    const wrong: string[] = []
    for (const route of routesOf('laboratory'))
      for (const role of roles) {
        const answer = await ask(route, laboratoryCases[below(route)]!, home.subjects, other.lab.people[role])
        if (answer.status !== 404 || !answer.text.includes('There is no such laboratory'))
          wrong.push(`${below(route)}, ${role}: ${answer.status} ${answer.text.slice(0, 200)}`)
      }
    expect(wrong).toEqual([])
  })

  it('of one’s own laboratory knows nothing that belongs to another', async () => {
    const wrong: string[] = []
    for (const route of routesOf('laboratory')) {
      const entry = laboratoryCases[below(route)]!
      if (entry.foreign === 'names nothing') continue
      for (const role of roles.filter((one) => mayDo([one], route.config.action!))) {
        const answer = await ask(route, entry, inAddressOf(other, home), other.lab.people[role])
        // What a reader is shown names nothing of the other laboratory.
        const { test, result, project, report } = home.subjects
        const shown = route.method === 'GET' && answer.status === 200 ? [test, result, project, report] : []
        if (shown.some((id) => answer.text.includes(id)))
          wrong.push(`${below(route)}, ${role} shows another laboratory’s`)
        if (answer.status !== (entry.foreign ?? 404) || !answer.text.includes(entry.foreignSays ?? ''))
          wrong.push(`${below(route)}, ${role}: ${answer.status} ${answer.text.slice(0, 200)}`)
      }
    }
    expect(wrong).toEqual([])
  })

  it('that lists reports by project shows a project of one’s own laboratory only, and to staff only', async () => {
    const route = routesOf('laboratory').find((candidate) => below(candidate) === 'GET /reports')!
    const byProject: RouteCase = { query: ({ project }) => `?projectId=${project}`, own: 200 }
    for (const role of roles) {
      const own = await ask(route, byProject, home.subjects, home.lab.people[role])
      const foreign = await ask(route, byProject, inAddressOf(other, home), other.lab.people[role])
      if (mayDo([role], route.config.action!)) {
        expect([own.status, own.text.includes(home.subjects.report)]).toEqual([200, true])
        expect([foreign.status, JSON.parse(foreign.text).items]).toEqual([200, []])
      } else expect([own.status, foreign.status]).toEqual([403, 403])
    }
  })

  it('of a client shows nothing of another client of the same laboratory', async () => {
    const wrong: string[] = []
    for (const route of routesOf('laboratory').filter(({ config }) => mayDo(['client'], config.action!))) {
      const name = below(route)
      const answer = await ask(route, laboratoryCases[name]!, home.subjects, home.lab.people.otherClient)
      const ids = [home.subjects.project, home.subjects.report, home.subjects.design, home.subjects.client]
      if (ids.some((id) => answer.text.includes(id) && !route.url.includes(':report')))
        wrong.push(`${name} names another client’s`)
      if (answer.status !== (['GET /own-reports/:report/pdf', 'POST /own-questions'].includes(name) ? 404 : 200))
        wrong.push(`${name}: ${answer.status}`)
    }
    expect(wrong).toEqual([])
  })

  it('of an account needs a session and no role', async () => {
    const wrong: string[] = []
    for (const route of routesOf('signed-in')) {
      const entry = accountCases[nameOf(route)]!
      const signedOut = await ask(route, entry, home.subjects)
      if (signedOut.status !== 401 || signedOut.code !== 'not-signed-in')
        wrong.push(`${nameOf(route)}, signed out: ${signedOut.status} ${signedOut.code}`)
      for (const role of roles) {
        // Somebody of their own: some of these end the session.
        const person = await makePerson(testApp, home.lab, {
          name: `Passing ${role}`,
          roles: [role],
          clientId: role === 'client' ? home.lab.clientId : null,
        })
        const { status, text } = await ask(route, entry, home.subjects, person)
        if (![entry.own].flat().includes(status))
          wrong.push(`${nameOf(route)}, ${role}: ${status} ${text.slice(0, 200)}`)
      }
    }
    expect(wrong).toEqual([])
  })

  it('for anybody asks nobody to sign in', async () => {
    const wrong: string[] = []
    for (const route of testApp.app.namedRoutes.filter((one) => permissions[one.config.action!] === 'public')) {
      const entry = publicCases[nameOf(route)] ?? { own: [200, 302, 404] }
      for (const person of [undefined, ...roles.map((role) => home.lab.people[role])]) {
        const { status, code, text } = await ask(route, entry, home.subjects, person)
        if (code === 'not-signed-in' || code === 'not-allowed' || ![entry.own].flat().includes(status))
          wrong.push(`${nameOf(route)}: ${status} ${text.slice(0, 200)}`)
      }
    }
    expect(wrong).toEqual([])
  })
})
