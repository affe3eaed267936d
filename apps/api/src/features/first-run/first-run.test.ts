import request from 'supertest'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'

let testApp: TestApp
beforeEach(async () => {
  testApp = await startTestApp({ setupCode: 'good-lime-wash-2' })
})
afterEach(() => testApp.close())

const password = 'nine rooks above the wet weir'
const body = (change: object = {}) => ({
  code: 'GOOD-lime-wash-2',
  laboratory: {
    id: newId(),
    shortName: 'tern-hollow',
    name: 'Tern Hollow Surfacing Laboratory',
    zone: 'Europe/London',
  },
  manager: { name: 'Ada Quill', initials: 'AQ', email: 'manager@ternhollow.example', password },
  ...change,
})
const run = (sent: object) => request(testApp.url).post('/api/first-run').send(sent)

describe('the first run', () => {
  test('makes the laboratory and its manager against the printed code, once', async () => {
    expect(await testApp.services.firstRun.codeToPrint()).toBe('good-lime-wash-2')
    await request(testApp.url).get('/api/first-run').expect(200, { needed: true })
    expect((await run(body({ code: 'something-else' })).expect(403)).body.errors[0].path).toBe('code')

    const sent = body()
    const { body: made } = await run(sent).expect(201)
    expect(made).toEqual({ labId: sent.laboratory.id, shortName: 'tern-hollow' })
    await request(testApp.url).get('/api/first-run').expect(200, { needed: false })
    expect(await testApp.services.firstRun.codeToPrint()).toBeNull()

    const signedIn = await request(testApp.url)
      .post('/api/session')
      .send({ email: 'manager@ternhollow.example', password })
      .expect(200)
    expect(signedIn.body.memberships).toMatchObject([{ labId: made.labId, roles: ['manager'], initials: 'AQ' }])
    const cookie = (signedIn.headers['set-cookie'] as unknown as string[])[0]!.split(';')[0]!
    const { body: laboratory } = await request(testApp.url)
      .get(`/api/labs/${made.labId}`)
      .set('cookie', cookie)
      .expect(200)
    expect(laboratory).toMatchObject({
      shortName: 'tern-hollow',
      closedDays: { weekdays: [6, 7], dates: [] },
      shifts: [{ from: '07:00', to: '15:30' }],
      units: 'si',
      paper: 'a4',
      version: 1,
    })

    expect((await run(body()).expect(409)).body.code).toBe('wrong-state')
  })

  test('sent twice at the same moment makes one laboratory, and no account without one', async () => {
    const other = body({ manager: { ...body().manager, email: 'other@ternhollow.example' } })
    const statuses = (await Promise.all([run(body()), run(other)])).map(({ status }) => status)
    expect(statuses.sort()).toEqual([201, 409])
    const { rows } = await testApp.database.identityPool.query('select email from identity_user')
    expect(rows).toHaveLength(1)
  })

  test('refuses a weak password, a zone nobody knows, a short name that no address can hold', async () => {
    const sent = body()
    expect(
      (await run({ ...sent, manager: { ...sent.manager, password: 'tern hollow laboratory' } }).expect(400)).body
        .errors[0].path,
    ).toBe('manager.password')
    expect(
      (await run({ ...sent, laboratory: { ...sent.laboratory, zone: 'Europe/Nowhere' } }).expect(400)).body.errors[0]
        .path,
    ).toBe('laboratory.zone')
    expect(
      (await run({ ...sent, laboratory: { ...sent.laboratory, shortName: 'Tern Hollow' } }).expect(400)).body.errors[0]
        .path,
    ).toBe('laboratory.shortName')
    await request(testApp.url).get('/api/first-run').expect(200, { needed: true })
  })

  test('goes on where an earlier one was cut off after its account', async () => {
    await testApp.services.auth.createAccount({ name: 'Ada Quill', email: 'manager@ternhollow.example', password })
    await run(body({ manager: { ...body().manager, password: 'eleven herons in a row boat' } })).expect(400)
    await run(body()).expect(201)
  })
})
