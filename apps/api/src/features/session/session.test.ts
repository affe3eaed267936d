import { createHmac } from 'node:crypto'
import request from 'supertest'
import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { connect } from '../../../../../tests/support/as-login.ts'
import { testPassword } from '../../../../../tests/support/factories/account.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'
import { codeSquare } from '#platform/code-square'

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

const signIn = (email: string, password: string) => request(testApp.url).post('/api/session').send({ email, password })
const cookiesOf = (answer: request.Response) =>
  ([answer.headers['set-cookie']].flat() as string[]).map((cookie) => cookie.split(';', 1)[0]!).join('; ')

describe('signing in', () => {
  test('sets a cookie that scripts cannot read, and shows the laboratories one may enter', async () => {
    const { email, actor } = lab.people.technician
    const answer = await signIn(email.toUpperCase(), testPassword).expect(200)
    const [cookie] = answer.headers['set-cookie'] as unknown as string[]
    expect(cookie).toMatch(/^curebook\.session_token=.+; Max-Age=43200; Path=\/; HttpOnly; SameSite=Lax$/i)
    expect(answer.body).toMatchObject({
      account: { email, secondFactor: false },
      memberships: [
        { labId: lab.labId, shortName: lab.shortName, roles: ['technician'], membershipId: actor.membershipId },
      ],
    })
    await request(testApp.url).get(lab.path()).set('cookie', cookiesOf(answer)).expect(200)
  })

  test('keeps the session’s token out of every answer', async () => {
    const answer = await signIn(lab.people.technician.email, testPassword).expect(200)
    const token = decodeURIComponent(cookiesOf(answer).split('=')[1]!).split('.')[0]!
    expect(token.length).toBeGreaterThanOrEqual(32)
    expect(JSON.stringify(answer.body)).not.toContain(token)
  })

  test('notes the address as we count it, whatever the request claims', async () => {
    await signIn(lab.people.engineer.email, testPassword)
      .set('x-client-address', '203.0.113.9')
      .set('x-forwarded-for', '203.0.113.8')
      .expect(200)
    const { rows } = await testApp.database.identityPool.query(
      'select ip_address from identity_session where user_id = $1 and ip_address is not null',
      [lab.people.engineer.accountId],
    )
    expect(rows.map(({ ip_address }) => ip_address)).toEqual(['127.0.0.1'])
  })

  test('says the same for a wrong password and for nobody’s address', async () => {
    const wrong = await signIn(lab.people.technician.email, 'not the password at all').expect(401)
    const nobody = await signIn('nobody@ternhollow.example', 'not the password at all').expect(401)
    expect(wrong.body.code).toBe('wrong-credentials')
    expect(nobody.body.detail).toBe(wrong.body.detail)
  })

  test('waits longer after each wrong password of an account, and does not lock another account’s owner out', async () => {
    const { email } = lab.people.technician
    for (let attempt = 1; attempt <= 5; attempt++) await signIn(email, 'not the password at all').expect(401)
    const waiting = await signIn(email, testPassword).expect(429)
    expect(waiting.body.code).toBe('too-many-requests')
    expect(Number(waiting.headers['retry-after'])).toBeGreaterThan(20)
    expect(Number(waiting.headers['retry-after'])).toBeLessThanOrEqual(60)
    await signIn(lab.people.engineer.email, testPassword).expect(200)
    await testApp.database.identityPool.query(
      "update identity_rate set blocked_until = clock_timestamp() where key like 'account:%'",
    )
    await signIn(email, testPassword).expect(200)
    const { rows } = await testApp.database.identityPool.query('select 1 from identity_rate where key = $1', [
      `account:${email}`,
    ])
    expect(rows).toEqual([])
  })

  test('ends at 100 wrong passwords in a row', async () => {
    const { email } = lab.people.technician
    await testApp.database.identityPool.query(
      'insert into identity_rate (key, count, window_start) values ($1, 99, clock_timestamp())',
      [`account:${email}`],
    )
    await signIn(email, 'not the password at all').expect(401)
    const closed = await signIn(email, testPassword).expect(429)
    expect(closed.body.detail).toContain('100 times in a row')
  })

  test('counts attempts sent at the same moment', async () => {
    const { email } = lab.people.technician
    const answers = await Promise.all(Array.from({ length: 12 }, () => signIn(email, 'not the password at all')))
    expect(answers.filter(({ status }) => status === 401)).toHaveLength(5)
    expect(answers.filter(({ status }) => status === 429)).toHaveLength(7)
  })

  test('limits the attempts of an address', async () => {
    await testApp.database.identityPool.query(
      "insert into identity_rate (key, count, window_start) values ('address:127.0.0.1', 100, clock_timestamp())",
    )
    await signIn(lab.people.technician.email, testPassword).expect(429)
    await testApp.database.identityPool.query(
      "update identity_rate set window_start = clock_timestamp() - interval '16 minutes' where key = 'address:127.0.0.1'",
    )
    await signIn(lab.people.technician.email, testPassword).expect(200)
  })

  test('has no door beside it: nobody can sign themselves up', async () => {
    for (const path of ['/api/auth/sign-up/email', '/sign-up/email', '/api/auth/sign-in/email'])
      await request(testApp.url).post(path).send({}).expect(404)
  })
})

describe('a session', () => {
  test('ends at once when one signs out, here or everywhere', async () => {
    const { email } = lab.people.technician
    const [first, second, third] = [
      cookiesOf(await signIn(email, testPassword)),
      cookiesOf(await signIn(email, testPassword)),
      cookiesOf(await signIn(email, testPassword)),
    ]
    const out = await request(testApp.url).delete('/api/session').set('cookie', first!).expect(204)
    expect(out.headers['set-cookie']![0]).toMatch(/^curebook\.session_token=; Max-Age=0/)
    await request(testApp.url).get(lab.path()).set('cookie', first!).expect(401)
    await request(testApp.url).get(lab.path()).set('cookie', second!).expect(200)
    await request(testApp.url).post('/api/session/sign-out-everywhere').set('cookie', second!).expect(204)
    for (const cookie of [second!, third!, lab.people.technician.cookie])
      await request(testApp.url).get(lab.path()).set('cookie', cookie).expect(401)
  })

  test('ends after an hour without use, and 12 hours after it began', async () => {
    const { accountId } = lab.people.technician
    const set = (column: string, ago: string) =>
      testApp.database.identityPool.query(
        `update identity_session set ${column} = clock_timestamp() - interval '${ago}' where user_id = $1`,
        [accountId],
      )
    await set('last_seen_at', '59 minutes')
    await lab.as('technician').get(lab.path()).expect(200)
    await set('last_seen_at', '61 minutes')
    await lab.as('technician').get(lab.path()).expect(401)
    await set('last_seen_at', '0 minutes')
    await set('created_at', '11 hours 59 minutes')
    await lab.as('technician').get(lab.path()).expect(200)
    await set('created_at', '12 hours 1 minute')
    await lab.as('technician').get(lab.path()).expect(401)
  })

  test('stands in the list of one’s devices, where another can be ended', async () => {
    const elsewhere = cookiesOf(await signIn(lab.people.technician.email, testPassword))
    const { body } = await lab.as('technician').get('/api/account/sessions').expect(200)
    expect(body).toHaveLength(2)
    const other = body.find(({ current }: { current: boolean }) => !current)
    await lab.as('technician').delete(`/api/account/sessions/${other.id}`).expect(204)
    await request(testApp.url).get(lab.path()).set('cookie', elsewhere).expect(401)
    await lab.as('technician').get(lab.path()).expect(200)
  })
})

describe('a new password', () => {
  test('needs the present one, obeys the rules, and signs other devices out', async () => {
    const next = 'nine rooks above the wet weir'
    const change = (body: object) => lab.as('technician').post('/api/account/password').send(body)
    expect((await change({ current: 'not the password at all', next }).expect(403)).body.code).toBe('wrong-password')
    expect((await change({ current: testPassword, next: 'short' }).expect(400)).body.errors[0]).toMatchObject({
      path: 'next',
    })
    const elsewhere = cookiesOf(await signIn(lab.people.technician.email, testPassword))
    await change({ current: testPassword, next }).expect(204)
    await lab.as('technician').get(lab.path()).expect(200)
    await request(testApp.url).get(lab.path()).set('cookie', elsewhere).expect(401)
    await signIn(lab.people.technician.email, testPassword).expect(401)
    await signIn(lab.people.technician.email, next).expect(200)
  })

  test('set while somebody signs in with the old one ends that sign-in with the others', async () => {
    const { accountId, email } = lab.people.technician2
    const next = 'nine rooks above the wet weir'
    const [holder, watcher] = [await connect(testApp.ownerUrl), await connect(testApp.ownerUrl)]
    // Where the session is written: the old password was looked at by then.
    await holder.query('begin')
    await holder.query('select from identity_user where id = $1 for update', [accountId])
    const late = signIn(email, testPassword).then((answer) => answer)
    const waiting = "select from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'"
    await vi.waitFor(async () => expect((await watcher.query(waiting)).rows).toHaveLength(1), 20_000)
    await testApp.services.auth.setPassword(accountId, next, undefined)
    await Promise.all([holder.end(), watcher.end()])
    expect((await late).status).toBe(401)
    const { rows } = await testApp.database.identityPool.query('select from identity_session where user_id = $1', [
      accountId,
    ])
    expect(rows).toEqual([])
    await signIn(email, next).expect(200)
  })

  test('ends a sign-in that waits for its second factor', async () => {
    const { accountId, email } = lab.people.engineer2
    const secret = await withSecondFactor('engineer2')
    const half = await signIn(email, testPassword).expect(401)
    await testApp.services.auth.setPassword(accountId, 'nine rooks above the wet weir', undefined)
    await request(testApp.url)
      .post('/api/session/second-factor')
      .set('cookie', cookiesOf(half))
      .send({ code: totp(secret) })
      .expect(401)
  })

  test('signing asks for the password again', async () => {
    const { actor } = lab.people.engineer
    expect(await testApp.services.auth.verifyPassword(actor, testPassword)).toMatchObject({ means: 'password' })
    await expect(testApp.services.auth.verifyPassword(actor, 'not the password at all')).rejects.toMatchObject({
      code: 'wrong-password',
    })
  })
})

describe('a second factor', () => {
  test('is asked for after the password, once it is on', async () => {
    const { email } = lab.people.manager
    const setup = await lab
      .as('manager')
      .post('/api/account/second-factor')
      .send({ password: testPassword })
      .expect(200)
    const secret = new URL(setup.body.uri).searchParams.get('secret')!
    expect(setup.body.backupCodes.length).toBeGreaterThanOrEqual(5)
    expect(setup.body.square).toEqual(codeSquare(setup.body.uri))
    await lab.as('manager').post('/api/account/second-factor/confirm').send({ code: '000000' }).expect(400)
    await lab
      .as('manager')
      .post('/api/account/second-factor/confirm')
      .send({ code: totp(secret) })
      .expect(204)

    const half = await signIn(email, testPassword).expect(401)
    expect(half.body.code).toBe('second-factor-needed')
    await request(testApp.url).get(lab.path()).set('cookie', cookiesOf(half)).expect(401)
    const second = (code: string) =>
      request(testApp.url).post('/api/session/second-factor').set('cookie', cookiesOf(half)).send({ code })
    expect((await second('000000').expect(401)).body.errors).toEqual([{ path: 'code', message: 'Not the right code' }])
    const whole = await second(totp(secret)).expect(200)
    expect(whole.body.account).toMatchObject({ email, secondFactor: true })
    await request(testApp.url).get(lab.path()).set('cookie', cookiesOf(whole)).expect(200)

    const byCode = await signIn(email, testPassword).expect(401)
    await request(testApp.url)
      .post('/api/session/second-factor')
      .set('cookie', cookiesOf(byCode))
      .send({ code: setup.body.backupCodes[0] })
      .expect(200)
  })

  test('begun twice at once is one, whose secret is the one shown last', async () => {
    const begin = async () => lab.as('auditor').post('/api/account/second-factor').send({ password: testPassword })
    const held = { sql: 'select from identity_user where id = $1 for update', values: [lab.people.auditor.accountId] }
    const outcomes = await atOnce(testApp.ownerUrl, held, begin, begin)
    const setups = outcomes.flatMap((outcome) => (outcome.status === 'fulfilled' ? [outcome.value] : []))
    expect(setups.map(({ status }) => status)).toEqual([200, 200])
    const { rows } = await testApp.database.identityPool.query('select from identity_two_factor where user_id = $1', [
      lab.people.auditor.accountId,
    ])
    expect(rows).toHaveLength(1)
    for (const [index, { body }] of setups.entries())
      await lab
        .as('auditor')
        .post('/api/account/second-factor/confirm')
        .send({ code: totp(new URL(body.uri).searchParams.get('secret')!) })
        .expect(index === 0 ? 400 : 204)
  })
})

/** Turns it on. @returns its secret */
async function withSecondFactor(who: PersonKey): Promise<string> {
  const setup = await lab.as(who).post('/api/account/second-factor').send({ password: testPassword }).expect(200)
  const secret = new URL(setup.body.uri).searchParams.get('secret')!
  await lab
    .as(who)
    .post('/api/account/second-factor/confirm')
    .send({ code: totp(secret) })
    .expect(204)
  return secret
}

/** RFC 6238 with SHA-1, six digits, thirty seconds, on real time as accounts have it. */
function totp(secret: string): string {
  const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567'
  const bits = [...secret.replace(/=+$/, '')]
    .map((letter) => letters.indexOf(letter).toString(2).padStart(5, '0'))
    .join('')
  const key = Buffer.from(bits.match(/.{8}/g)!.map((byte) => Number.parseInt(byte, 2)))
  const counter = Buffer.alloc(8)
  counter.writeBigUInt64BE(BigInt(Math.floor(Date.now() / 30_000)))
  const mac = createHmac('sha1', key).update(counter).digest()
  const offset = mac[mac.length - 1]! & 0x0f
  return String((mac.readUInt32BE(offset) & 0x7fffffff) % 1_000_000).padStart(6, '0')
}
