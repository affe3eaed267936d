import { randomUUID } from 'node:crypto'
import fastify from 'fastify'
import request from 'supertest'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { z } from 'zod'
import { startTestApp, type TestApp } from '../../../../tests/support/app.ts'
import { makeLaboratory, makePerson, type TestLaboratory } from '../../../../tests/support/factories/laboratory.ts'
import { access } from './access.ts'
import { refuseMightyLogin } from './login-check.ts'

let testApp: TestApp
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp()
})
afterAll(() => testApp.close())
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})

describe('a route', () => {
  const bare = async (config: object, url: string) => {
    const app = fastify()
    await app.register(access, { identify: async () => null, cookieName: 'c', secret: 's' })
    app.get(url, { config }, async () => null)
    return app.ready()
  }

  test('that names no action stops the server from starting', async () => {
    await expect(bare({}, '/api/somewhere')).rejects.toThrow('GET /api/somewhere names no action')
    await expect(bare({ action: 'tea:drink' }, '/api/somewhere')).rejects.toThrow('names no action')
  })

  test('of a laboratory stands under its address, and no other does', async () => {
    await expect(bare({ action: 'people:read' }, '/api/people')).rejects.toThrow('stands under /api/labs/:lab')
    await expect(bare({ action: 'session:read' }, '/api/labs/:lab/session')).rejects.toThrow(
      'stands under /api/labs/:lab',
    )
  })
})

describe('a request', () => {
  test('without a session is asked to sign in, with a forged one too', async () => {
    const answer = await request(testApp.url).get(lab.path()).expect(401)
    expect(answer.type).toBe('application/problem+json')
    expect(answer.body).toMatchObject({
      type: '/problems/not-signed-in',
      status: 401,
      instance: lab.path(),
      code: 'not-signed-in',
      requestId: answer.headers['x-request-id'],
    })
    const forged = lab.people.manager.cookie.replace(/.{6}$/, 'AAAAAA')
    await request(testApp.url).get(lab.path()).set('cookie', forged).expect(401)
  })

  test('to a laboratory that is not one’s own finds none, as for one that does not stand', async () => {
    const other = await makeLaboratory(testApp)
    const notMine = await lab.as('manager').get(other.path()).expect(404)
    const nowhere = await lab.as('manager').get(`/api/labs/${randomUUID()}`).expect(404)
    expect(notMine.body.detail).toBe(nowhere.body.detail)
    await lab.as('manager').get('/api/labs/not-an-id').expect(404)
  })

  test('that the role does not allow says which roles do', async () => {
    const answer = await lab.as('technician').post(lab.path('/invitations')).send({}).expect(403)
    expect(answer.body).toMatchObject({
      code: 'not-allowed',
      detail: 'This is for manager; Person technician is technician here.',
    })
    const foreign = await lab.as('client').get(lab.path('/schedule')).expect(403)
    expect(foreign.body.detail).toBe(
      'This is for manager, technician, engineer or auditor; Person client is client here.',
    )
  })

  test('counts the roles as they are now, not as they were at sign-in', async () => {
    const person = await makePerson(testApp, lab, { name: 'Lin Marsh', roles: ['manager'] })
    await lab.as(person).get(lab.path('/ledger/head')).expect(200)
    await lab
      .as('manager')
      .patch(lab.path(`/people/${person.actor.membershipId}`))
      .set('if-match', '"1"')
      .send({ roles: ['technician'] })
      .expect(200)
    await lab.as(person).get(lab.path('/ledger/head')).expect(403)
  })

  test('after a membership’s end is refused', async () => {
    const until = new Date(testApp.clock.now().getTime() + 60_000).toISOString()
    await lab
      .as('manager')
      .patch(lab.path(`/people/${lab.people.auditor.actor.membershipId}`))
      .set('if-match', '"1"')
      .send({ validUntil: until })
      .expect(200)
    await lab.as('auditor').get(lab.path()).expect(200)
    testApp.clock.advance({ minutes: 2 })
    await lab.as('auditor').get(lab.path()).expect(404)
  })

  test('that somebody else entered is stored under no other name, and may come again when they are here', async () => {
    const { membershipId } = lab.people.manager.actor
    const body = { id: randomUUID(), name: 'Ridge county roads', contact: 'the clerk', address: '' }
    const send = (who: 'engineer' | 'technician' | 'manager') =>
      lab.as(who).post(lab.path('/clients')).set('x-membership', membershipId).send(body)
    // The technician's role would be refused for good: whose it is comes first.
    for (const who of ['engineer', 'technician'] as const)
      expect((await send(who).expect(425)).body).toMatchObject({ code: 'other-person', type: '/problems/other-person' })
    const stranger = await makeLaboratory(testApp)
    await stranger.as('manager').get(lab.path('/clients')).set('x-membership', membershipId).expect(425)
    expect((await lab.as('manager').get(lab.path('/clients')).expect(200)).text).not.toContain('Ridge county roads')
    await send('manager').expect(201)
  })

  test('with a body that does not fit gets a sentence beside each field', async () => {
    const answer = await lab
      .as('manager')
      .post(lab.path('/invitations'))
      .send({ id: 'x', email: 'nobody', name: '', roles: [], extra: 1 })
      .expect(400)
    expect(answer.body.errors.map(({ path }: { path: string }) => path).sort()).toEqual([
      'email',
      'form',
      'id',
      'name',
      'roles',
    ])
    const settings = await lab
      .as('manager')
      .patch(lab.path())
      .set('if-match', '"1"')
      .send({ shifts: [{ from: '07:00', to: '07:00' }] })
      .expect(400)
    expect(settings.body.errors).toEqual([
      { path: 'shifts.0.to', message: 'A shift ends at another time than it starts' },
    ])
  })

  test('with a query that does not fit names the field', async () => {
    const answer = await lab.as('auditor').get(lab.path('/ledger/entries?limit=many')).expect(400)
    expect(answer.body.errors[0].path).toBe('limit')
  })

  test('that is not JSON, or not readable, is refused with its reason', async () => {
    await lab.as('manager').post(lab.path('/invitations')).type('form').send('id=1').expect(415)
    await lab.as('manager').post(lab.path('/invitations')).type('json').send('{"id":').expect(400)
    await lab
      .as('manager')
      .post(lab.path('/invitations'))
      .type('json')
      .send(JSON.stringify({ name: 'x'.repeat(2_000_000) }))
      .expect(413)
  })

  test('from a page of another site changes nothing', async () => {
    const send = () => lab.as('manager').delete('/api/session')
    expect((await send().set('sec-fetch-site', 'cross-site').expect(403)).body.code).toBe('cross-site')
    await send().set('sec-fetch-site', 'same-site').expect(403)
    await send().set('origin', 'https://elsewhere.example').expect(403)
    await send().set('origin', 'null').expect(403)
    await send().set('sec-fetch-site', 'same-origin').set('origin', testApp.url).expect(204)
  })

  test('to nowhere gets a problem, and every answer its security headers', async () => {
    const answer = await request(testApp.url).get('/api/nowhere').expect(404)
    expect(answer.body.code).toBe('not-found')
    expect(answer.headers).toMatchObject({
      'content-security-policy': "default-src 'none'; frame-ancestors 'none'",
      'x-content-type-options': 'nosniff',
      'cache-control': 'no-store',
      'x-frame-options': 'DENY',
      'permissions-policy': 'camera=(self), serial=(self), geolocation=(), microphone=()',
    })
  })
})

describe('a fault of ours', () => {
  test('is answered without its words, and so is an answer that does not fit its contract', async () => {
    const another = await testApp.startAnother((app) => {
      app.get('/api/fault', { config: { action: 'health:read' } }, async () => {
        throw new Error('select secret from somewhere')
      })
      app.get(
        '/api/misfit',
        { config: { action: 'health:read' }, schema: { response: { 200: z.object({ n: z.number() }) } } },
        async () => ({ n: 'x' }) as never,
      )
    })
    const fault = await request(another.url).get('/api/fault').expect(500)
    expect(fault.body.code).toBe('unexpected')
    expect(fault.text).not.toContain('secret')
    expect((await request(another.url).get('/api/misfit').expect(500)).body.code).toBe('unexpected')
    await another.close()
  })
})

describe('the server’s own login', () => {
  test('is refused when it could see every laboratory', async () => {
    const { Pool } = await import('pg')
    const owner = new Pool({ connectionString: testApp.ownerUrl, max: 1 })
    await expect(refuseMightyLogin(owner, 'DATABASE_URL_APP')).rejects.toThrow(
      /of DATABASE_URL_APP (is a superuser|owns the table)/,
    )
    await owner.end()
    await expect(refuseMightyLogin(testApp.database.pool, 'DATABASE_URL_APP')).resolves.toBeUndefined()
  })
})

describe('health, metrics and the contract', () => {
  test('say that the process lives and can serve', async () => {
    await request(testApp.url).get('/health/live').expect(200, { state: 'ok' })
    await request(testApp.url).get('/health/ready').expect(200, { state: 'ok' })
  })

  test('show numbers to this machine only, and not through a proxy on it', async () => {
    const answer = await request(testApp.url).get('/metrics').expect(200)
    expect(answer.text).toContain('nodejs_eventloop_lag_seconds')
    expect(answer.text).toMatch(/curebook_request_seconds_count\{method="GET",route="\/health\/live",status="200"\} \d/)
    await request(testApp.url).get('/metrics').set('x-forwarded-for', '203.0.113.9').expect(404)
  })

  test('publish the contract, with every route of a feature in it', async () => {
    const { body } = await request(testApp.url).get('/api/docs/json').expect(200)
    expect(body.openapi).toBe('3.1.0')
    const documented = Object.entries(body.paths as Record<string, object>).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`),
    )
    const served = testApp.app.namedRoutes
      .filter(({ config }) => !['docs:read', 'metrics:read'].includes(config.action!))
      .map(({ method, url }) => `${method} ${url.replace(/:(\w+)/g, '{$1}').replace(/(.)\/$/, '$1')}`)
    expect(documented.map((route) => route.replace(/(.)\/$/, '$1')).sort()).toEqual(
      expect.arrayContaining(served.sort()),
    )
    await request(testApp.url).get('/api/docs').redirects(2).expect(200)
  })
})
