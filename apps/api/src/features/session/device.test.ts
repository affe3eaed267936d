import request from 'supertest'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { testPassword } from '../../../../../tests/support/factories/account.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'

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

/** A browser that keeps its cookies: a tablet. */
function aTablet(url = testApp.url) {
  const agent = request.agent(url)
  const at = (path: string) => lab.path(path)
  return {
    signIn: async (who: PersonKey) =>
      agent.post('/api/session').send({ email: lab.people[who].email, password: testPassword }).expect(200),
    signOut: () => agent.delete('/api/session').expect(204),
    setPin: (pin: string, password = testPassword) => agent.post('/api/account/pin').send({ password, pin }),
    endPin: () => agent.post('/api/account/pin/end').send({ password: testPassword }),
    who: async () => (await agent.get('/api/session').expect(200)).body.account.email,
    people: async () => (await agent.get(at('/device/people')).expect(200)).body,
    switchTo: (who: PersonKey, pin: string) =>
      agent.post(at('/device/switch')).send({ membershipId: lab.people[who].actor.membershipId, pin }),
    unlock: (given: object) => agent.post('/api/session/unlock').send(given),
    agent,
  }
}
const everyDevice = (sql: string) => testApp.database.identityPool.query(`update identity_device set ${sql}`)

/** Two people with a PIN each, both signed in on one tablet; the technician last. */
async function aShift() {
  const tablet = aTablet()
  await tablet.signIn('manager')
  await tablet.setPin('90210').expect(204)
  await tablet.signIn('technician')
  await tablet.setPin('2468').expect(204)
  return tablet
}

describe('a PIN', () => {
  it('is set with the password, kept as a hash only, and taken back', async () => {
    const tablet = aTablet()
    await tablet.signIn('technician')
    expect((await tablet.agent.get('/api/account/pin').expect(200)).body).toEqual({ set: false })
    expect((await tablet.setPin('1234').expect(400)).body.errors[0].path).toBe('pin')
    await tablet.setPin('2468', 'another password of mine').expect(403)
    await tablet.setPin('2468').expect(204)
    expect((await tablet.agent.get('/api/account/pin').expect(200)).body).toEqual({ set: true })
    const { rows } = await testApp.database.identityPool.query<{ hash: string }>(
      'select hash from identity_pin where user_id = $1',
      [lab.people.technician.accountId],
    )
    expect(rows[0]!.hash).toMatch(/^\$argon2id\$/)
    await tablet.endPin().expect(204)
    expect((await tablet.agent.get('/api/account/pin').expect(200)).body).toEqual({ set: false })
  })
})

describe('changing person', () => {
  it('takes a PIN of somebody who signed in on this device; the other’s session ends, what one does is one’s own', async () => {
    const tablet = await aShift()
    const people = await tablet.people()
    expect(people.ownPin).toBe(true)
    expect(
      people.people
        .map(({ membershipId, current }: { membershipId: string; current: boolean }) => [membershipId, current])
        .sort(),
    ).toEqual(
      [
        [lab.people.manager.actor.membershipId, false],
        [lab.people.technician.actor.membershipId, true],
      ].sort(),
    )
    const before = await testApp.database.identityPool.query('select id from identity_session where user_id = $1', [
      lab.people.technician.accountId,
    ])
    await tablet.switchTo('manager', '90210').expect(204)
    expect(await tablet.who()).toBe(lab.people.manager.email)
    const after = await testApp.database.identityPool.query('select id from identity_session where user_id = $1', [
      lab.people.technician.accountId,
    ])
    expect(after.rowCount).toBe(before.rowCount! - 1)
    await tablet.switchTo('technician', '2468').expect(204)
    expect(await tablet.who()).toBe(lab.people.technician.email)
  })

  it('with the password, by somebody new, ends the session that the device had, and keeps who had it', async () => {
    const tablet = aTablet()
    await tablet.signIn('manager')
    await tablet.setPin('90210').expect(204)
    const sessions = async () =>
      (
        await testApp.database.identityPool.query('select id from identity_session where user_id = $1', [
          lab.people.manager.accountId,
        ])
      ).rowCount!
    const before = await sessions()
    await tablet.signIn('technician')
    expect(await sessions()).toBe(before - 1)
    await tablet.switchTo('manager', '90210').expect(204)
    expect(await tablet.who()).toBe(lab.people.manager.email)
  })

  it('is refused for a wrong PIN, and after five in a row for the right one too, until the password is given', async () => {
    const tablet = await aShift()
    for (let time = 0; time < 5; time += 1) {
      const { body } = await tablet.switchTo('manager', '55555').expect(403)
      expect(body.errors[0].path).toBe('pin')
    }
    await tablet.switchTo('manager', '90210').expect(409)
    expect(await tablet.who()).toBe(lab.people.technician.email)
    expect((await tablet.people()).people).toHaveLength(1)
    await tablet.signIn('manager')
    await tablet.switchTo('technician', '2468').expect(204)
    await tablet.switchTo('manager', '90210').expect(204)
  })

  it('of many wrong PINs at once no more than five are looked at', async () => {
    const tablet = await aShift()
    const another = await testApp.startAnother()
    const elsewhere = aTablet(another.url)
    elsewhere.agent.jar = tablet.agent.jar
    const answers = await Promise.all(
      Array.from({ length: 8 }, (_, at) => (at % 2 ? tablet : elsewhere).switchTo('manager', '55555')),
    )
    await another.close()
    expect(answers.filter(({ status }) => status === 403).length).toBeLessThanOrEqual(5)
    expect(answers.some(({ status }) => status === 204)).toBe(false)
    await tablet.switchTo('manager', '90210').expect(409)
  })

  it('counts no wrong PIN against the account’s password, and none at all for somebody unknown to the device', async () => {
    const tablet = await aShift()
    for (let time = 0; time < 7; time += 1) {
      await tablet.switchTo('manager', '55555').expect(time < 5 ? 403 : 409)
      await tablet.switchTo('engineer', '55555').expect(409)
    }
    const { rows } = await testApp.database.identityPool.query<{ key: string; count: number }>(
      'select key, count from identity_rate',
    )
    expect(rows.filter(({ key }) => key.startsWith('account:'))).toEqual([])
    // Two people signed in, each set a PIN, five wrong ones were looked at.
    expect(rows.map(({ count }) => count)).toEqual([9])
    const elsewhere = aTablet()
    for (const who of ['manager', 'engineer'] as const) await elsewhere.signIn(who)
  })

  it('is for this device alone, for those still signed in on it, and within its 12 hours and its hour of rest', async () => {
    const tablet = await aShift()
    const other = aTablet()
    await other.signIn('technician')
    await other.switchTo('manager', '90210').expect(409)
    expect((await other.people()).people).toHaveLength(1)

    await tablet.switchTo('manager', '90210').expect(204)
    await tablet.signOut()
    await tablet.signIn('technician')
    await tablet.switchTo('manager', '90210').expect(409)

    const shift = await aShift()
    await testApp.database.identityPool.query(
      `update identity_session set last_seen_at = last_seen_at - interval '59 minutes'`,
    )
    await everyDevice(`last_seen_at = last_seen_at - interval '61 minutes'`)
    await shift.switchTo('manager', '90210').expect(204)
    await everyDevice(`created_at = created_at - interval '12 hours'`)
    await shift.switchTo('technician', '2468').expect(409)
    expect(await shift.people()).toEqual({ people: [], ownPin: false })
  })

  it('ends with signing out everywhere and with a new password', async () => {
    const tablet = await aShift()
    const desk = aTablet()
    await desk.signIn('manager')
    await desk.agent.post('/api/session/sign-out-everywhere').expect(204)
    await tablet.switchTo('manager', '90210').expect(409)
  })

  it('gives a session that ends with the device’s own', async () => {
    const tablet = await aShift()
    await everyDevice(`created_at = created_at - interval '11 hours'`)
    await tablet.switchTo('manager', '90210').expect(204)
    const { rows } = await testApp.database.identityPool.query<{ left: number }>(
      'select extract(epoch from expires_at - clock_timestamp())::float8 as left from identity_session where user_id = $1 order by created_at desc limit 1',
      [lab.people.manager.accountId],
    )
    expect(rows[0]!.left).toBeLessThanOrEqual(3600)
    expect(rows[0]!.left).toBeGreaterThan(3500)
  })
})

describe('a locked screen', () => {
  it('opens by the PIN or the password of whoever is signed in', async () => {
    const tablet = await aShift()
    await tablet.unlock({ pin: '2468' }).expect(204)
    await tablet.unlock({ pin: '90210' }).expect(403)
    await tablet.unlock({ password: testPassword }).expect(204)
    await tablet.unlock({ password: 'not my password at all' }).expect(403)
  })
  it('opens by the PIN while somebody guesses the password from outside, and changes person by it too', async () => {
    const tablet = await aShift()
    for (const who of ['technician', 'manager'] as const) {
      const guess = () =>
        request(testApp.url).post('/api/session').send({ email: lab.people[who].email, password: 'a guess of mine' })
      for (let time = 0; time < 5; time += 1) await guess().expect(401)
      await guess().expect(429)
    }
    await tablet.unlock({ pin: '2468' }).expect(204)
    await tablet.switchTo('manager', '90210').expect(204)
    // Nor does the PIN end what the password's guesses are owed.
    await tablet.unlock({ password: testPassword }).expect(429)
  })
})
