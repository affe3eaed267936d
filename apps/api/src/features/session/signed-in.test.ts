import request from 'supertest'
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { testPassword } from '../../../../../tests/support/factories/account.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'
import { createDeviceRows } from './device.repository.ts'

let testApp: TestApp
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp()
})
afterAll(() => testApp.close())
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
  await testApp.database.identityPool.query('delete from identity_rate')
})

type Listed = { id: string; person: { name: string }; current: boolean; agent: string; byPin: string[] }

const pins: Partial<Record<PersonKey, string>> = { technician: '2468', engineer: '90210' }

/** A tablet that these people signed in on one after the other, each with a PIN. */
async function aTablet(...people: PersonKey[]) {
  const agent = request.agent(testApp.url).set('user-agent', 'Mozilla/5.0 (Linux; Android 14) Chrome/130.0')
  for (const who of people) {
    await agent.post('/api/session').send({ email: lab.people[who].email, password: testPassword }).expect(200)
    await agent.post('/api/account/pin').send({ password: testPassword, pin: pins[who] }).expect(204)
  }
  return agent
}
const listed = async (): Promise<Listed[]> => (await lab.as('manager').get(lab.path('/signed-in')).expect(200)).body
const theTablet = async () => (await listed()).find(({ agent }) => agent?.includes('Android'))!
const cutOff = (id: string, reason = 'Left on the site of the airfield', who: PersonKey = 'manager') =>
  lab
    .as(who)
    .post(lab.path(`/signed-in/${id}/end`))
    .send({ reason })
const entriesOf = (id: string) =>
  testApp.services.laboratory.inLaboratory(lab.people.manager.actor, ({ prisma }) =>
    prisma.ledgerEntry.findMany({ where: { labId: lab.labId, subjectKind: 'device-session', subjectId: id } }),
  )
/** The manager of `lab` works in another laboratory too. */
async function alsoIn(other: TestLaboratory, who: PersonKey) {
  await testApp.services.laboratory.inLaboratory(other.people.manager.actor, ({ prisma, at }) =>
    prisma.membership.updateMany({
      where: { labId: other.labId, id: other.people.technician2.actor.membershipId },
      data: { accountId: lab.people[who].accountId, validFrom: at },
    }),
  )
}

describe('who is signed in now', () => {
  it('shows each device with its person and who may take it over by PIN, and marks the one that asks', async () => {
    await aTablet('engineer', 'technician')
    const tablet = await theTablet()
    expect(tablet).toMatchObject({ person: { name: 'Person technician' }, current: false, byPin: ['Person engineer'] })
    const rows = await listed()
    expect(rows.filter(({ current }) => current).map(({ person }) => person.name)).toEqual(['Person manager'])
    // Seven others are signed in from the making of the laboratory.
    expect(rows).toHaveLength(9)
  })

  it('shows nobody whose session is over, and nobody of another laboratory', async () => {
    const other = await makeLaboratory(testApp)
    await testApp.database.identityPool.query(
      `update identity_session set last_seen_at = clock_timestamp() - interval '61 minutes' where user_id = $1`,
      [lab.people.auditor.accountId],
    )
    const names = (await listed()).map(({ person }) => person.name)
    expect(names).toHaveLength(7)
    expect(names).not.toContain('Person auditor')
    const theirs: Listed[] = (await other.as('manager').get(other.path('/signed-in')).expect(200)).body
    expect(theirs).toHaveLength(8)
  })
})

describe('cutting a device off', () => {
  it('ends its session and every way back by PIN; the same people stay signed in elsewhere', async () => {
    const agent = await aTablet('engineer', 'technician')
    const { id } = await theTablet()
    await cutOff(id).expect(204)
    await agent.get('/api/session').expect(401)
    expect((await listed()).map((row) => row.id)).not.toContain(id)
    await lab.as('technician').get('/api/session').expect(200)

    // Found again, somebody signs in with a password: nobody comes back by PIN.
    await agent.post('/api/session').send({ email: lab.people.technician2.email, password: testPassword }).expect(200)
    const { membershipId } = lab.people.engineer.actor
    await agent.post(lab.path('/device/switch')).send({ membershipId, pin: '90210' }).expect(409)
  })

  it('is on record with reason, device and whom it cut off, once, and needs a reason', async () => {
    await aTablet('engineer', 'technician')
    const { id } = await theTablet()
    expect((await cutOff(id, ' ').expect(400)).body.errors[0].path).toBe('reason')
    await cutOff(id).expect(204)
    await cutOff(id, 'Another word').expect(204)
    const entries = await entriesOf(id)
    expect(entries).toHaveLength(1)
    expect(JSON.parse(entries[0]!.content)).toMatchObject({
      action: 'signed-in:end',
      content: {
        reason: 'Left on the site of the airfield',
        people: [lab.people.technician.actor.membershipId, lab.people.engineer.actor.membershipId],
      },
    })
  })

  it('of two orders at once one stands, and both find it done', async () => {
    const agent = await aTablet('technician')
    const { id } = await theTablet()
    const another = await testApp.startAnother()
    const there = lab
      .as('manager', another.url)
      .post(lab.path(`/signed-in/${id}/end`))
      .send({ reason: 'Stolen' })
    const answers = await Promise.all([cutOff(id), there])
    await another.close()
    expect(answers.map(({ status }) => status)).toEqual([204, 204])
    expect(await entriesOf(id)).toHaveLength(1)
    await agent.get('/api/session').expect(401)
  })

  it('while somebody changes person on it ends the session that takes its place too', async () => {
    const agent = await aTablet('engineer', 'technician')
    const { id } = await theTablet()
    const { accountId, actor } = lab.people.engineer
    // Where the new session is written; the one before is gone by then.
    const held = { sql: 'select from identity_user where id = $1 for update', values: [accountId] }
    const [changed, cut] = await atOnce(
      testApp.ownerUrl,
      held,
      async () => agent.post(lab.path('/device/switch')).send({ membershipId: actor.membershipId, pin: '90210' }),
      async () => cutOff(id),
    )
    expect([changed, cut]).toMatchObject([{ value: { status: 204 } }, { value: { status: 204 } }])
    await agent.get('/api/session').expect(401)
    expect(await theTablet()).toBeUndefined()
  })

  it('leaves nothing to who changes person a moment later: neither the way by PIN nor the session before is there', async () => {
    const agent = await aTablet('engineer', 'technician')
    const { id } = await theTablet()
    const { rows } = await testApp.database.identityPool.query<{ id: string }>(
      'select id from identity_device where session_id = $1',
      [id],
    )
    const replace = (ended: string, who: PersonKey) =>
      createDeviceRows(testApp.database).replaceSession(rows[0]!.id, ended, {
        ...{ accountId: lab.people[who].accountId, token: newId(), address: '127.0.0.1', agent: 'Android' },
        expiresAt: new Date(Date.now() + 3_600_000),
      })
    expect(await replace(newId(), 'engineer')).toBe(false)
    expect(await replace(id, 'auditor')).toBe(false)
    await agent.get('/api/session').expect(200)
    await cutOff(id).expect(204)
    expect(await replace(id, 'engineer')).toBe(false)
    expect(await theTablet()).toBeUndefined()
  })

  it('is a manager’s, of the laboratory whose person it is', async () => {
    await aTablet('technician')
    const { id } = await theTablet()
    for (const who of ['technician', 'engineer', 'auditor', 'client'] as const)
      await cutOff(id, 'Lost it', who).expect(403)
    const other = await makeLaboratory(testApp)
    await other
      .as('manager')
      .post(other.path(`/signed-in/${id}/end`))
      .send({ reason: 'Lost it' })
      .expect(404)
    expect((await theTablet()).id).toBe(id)
  })

  it('of somebody who works in two laboratories ends that device alone, and no other person’s way back to theirs', async () => {
    const other = await makeLaboratory(testApp)
    await alsoIn(other, 'technician')
    const agent = await aTablet('technician')
    await agent.post('/api/session').send({ email: other.people.engineer.email, password: testPassword }).expect(200)
    await agent.post('/api/account/pin').send({ password: testPassword, pin: '13579' }).expect(204)
    await agent
      .post(lab.path('/device/switch'))
      .send({ membershipId: lab.people.technician.actor.membershipId, pin: '2468' })
      .expect(404)
    await agent
      .post(other.path('/device/switch'))
      .send({ membershipId: other.people.technician2.actor.membershipId, pin: '2468' })
      .expect(204)
    const tablet = await theTablet()
    expect(tablet.byPin).toEqual([])
    await cutOff(tablet.id).expect(204)
    await agent.get('/api/session').expect(401)
    const { rows } = await testApp.database.identityPool.query('select user_id from identity_device_person')
    const stays = rows.map(({ user_id }) => user_id)
    expect(stays).toContain(other.people.engineer.accountId)
    expect(stays).not.toContain(lab.people.technician.accountId)
    await other
      .as({ ...other.people.technician2, cookie: lab.people.technician.cookie })
      .get(other.path('/people'))
      .expect(200)
  })

  it('is told to the device at once by its live stream', async () => {
    const stop = new AbortController()
    const { cookie } = lab.people.technician
    const answer = await fetch(`${testApp.url}${lab.path('/events')}`, { signal: stop.signal, headers: { cookie } })
    expect(answer.status).toBe(200)
    let heard = ''
    void (async () => {
      for await (const part of answer.body!) heard += new TextDecoder().decode(part as Uint8Array)
    })().catch(() => undefined)
    await cutOff(lab.people.technician.actor.sessionId!).expect(204)
    await testApp.services.sealer.sealNow()
    await vi.waitFor(() => expect(heard).toContain('event: ended'), 10_000)
    stop.abort()
  })
})
