import request from 'supertest'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { testPassword } from '../../../../../tests/support/factories/account.ts'
import { makeLaboratory, makePerson, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { initialsOf } from './initials.ts'

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

const update = (
  id: string,
  version: number,
  body: object,
  who: 'manager' | Parameters<TestLaboratory['as']>[0] = 'manager',
) =>
  lab
    .as(who)
    .patch(lab.path(`/people/${id}`))
    .set('if-match', `"${version}"`)
    .send(body)

describe('people', () => {
  test('may hold several roles, and the ledger keeps before and after', async () => {
    const { membershipId } = lab.people.technician.actor
    const { body, headers } = await update(membershipId, 1, { roles: ['technician', 'engineer'] }).expect(200)
    expect(body).toMatchObject({ roles: ['technician', 'engineer'], version: 2, hasAccount: true })
    expect(headers.etag).toBe('"2"')
    const { body: page } = await lab
      .as('auditor')
      .get(lab.path(`/ledger/entries?subjectKind=membership&subjectId=${membershipId}`))
      .expect(200)
    const entry = page.items[0]
    expect(entry).toMatchObject({ action: 'people:update', actor: { name: 'Person manager' } })
    expect(JSON.parse(entry.content).content).toMatchObject({
      before: { roles: ['technician'] },
      after: { roles: ['technician', 'engineer'] },
    })
  })

  test('are edited from the version one saw, and otherwise compared', async () => {
    const { membershipId } = lab.people.technician.actor
    await lab
      .as('manager')
      .patch(lab.path(`/people/${membershipId}`))
      .send({ name: 'A' })
      .expect(428)
    await update(membershipId, 1, { name: 'Lin Marsh' }).expect(200)
    const late = await update(membershipId, 1, { name: 'Lin Marsch' }).expect(412)
    expect(late.body).toMatchObject({ code: 'changed-meanwhile', stored: { name: 'Lin Marsh', version: 2 } })
  })

  test('with the role client hold no other role, and name a client of this laboratory', async () => {
    const { membershipId } = lab.people.technician.actor
    await update(membershipId, 1, { roles: ['client', 'technician'], clientId: lab.clientId }).expect(400)
    await update(membershipId, 1, { roles: ['client'] }).expect(400)
    const elsewhere = await makeLaboratory(testApp)
    await update(membershipId, 1, { roles: ['client'], clientId: elsewhere.clientId }).expect(400)
    await update(membershipId, 1, { roles: ['client'], clientId: lab.clientId }).expect(200)
    await lab.as('technician').get(lab.path('/people')).expect(403)
  })

  test('of another laboratory are nowhere to be found', async () => {
    const elsewhere = await makeLaboratory(testApp)
    await update(elsewhere.people.technician.actor.membershipId, 1, { name: 'X' }).expect(404)
  })

  test('keep a manager: the last one cannot lose the role or the membership', async () => {
    const { membershipId } = lab.people.manager.actor
    const refused = await update(membershipId, 1, { roles: ['auditor'] }).expect(422)
    expect(refused.body).toMatchObject({
      code: 'refused-by-rule',
      detail: 'Person manager is the last manager. Make somebody else manager first.',
    })
    await update(membershipId, 1, { validUntil: testApp.clock.now().toISOString() }).expect(422)
    await makePerson(testApp, lab, { name: 'Second manager', roles: ['manager'] })
    await update(membershipId, 1, { roles: ['auditor'] }).expect(200)
  })

  test('keep a manager when the last two leave at the same moment', async () => {
    for (let round = 0; round < 5; round++) {
      const own = await makeLaboratory(testApp)
      const second = await makePerson(testApp, own, { name: 'Second manager', roles: ['manager'] })
      const leave = (who: typeof second) =>
        own
          .as(who)
          .patch(own.path(`/people/${who.actor.membershipId}`))
          .set('if-match', '"1"')
          .send({ roles: ['auditor'] })
      const statuses = (await Promise.all([leave(own.people.manager), leave(second)])).map(({ status }) => status)
      expect(statuses.sort()).toEqual([200, 422])
    }
  })

  test('have initials for records', () => {
    expect(['Ada Quill', 'Jean-Luc van der Meer Ortiz', 'øyvind å', '…'].map(initialsOf)).toEqual([
      'AQ',
      'JLVD',
      'ØÅ',
      '?',
    ])
  })
})

describe('an invitation', () => {
  const invite = async (body: object = {}) => {
    const sent = {
      id: newId(),
      email: `new.${newId().slice(-8)}@ternhollow.example`,
      name: 'Ada Quill',
      roles: ['technician'],
      ...body,
    }
    const answer = await lab.as('manager').post(lab.path('/invitations')).send(sent)
    return { sent, answer, token: answer.body.token as string }
  }
  const accept = (body: object, cookie?: string) => {
    const call = request(testApp.url).post('/api/invitations/accept')
    return (cookie ? call.set('cookie', cookie) : call).send(body)
  }
  const password = 'nine rooks above the wet weir'

  test('lets its person in once, with the roles it names', async () => {
    const { sent, answer, token } = await invite({ roles: ['technician', 'auditor'] })
    expect(answer.status).toBe(201)
    expect(answer.body).toMatchObject({
      invitation: { state: 'open', email: sent.email },
      path: `/invitation#${token}`,
    })
    const offer = await request(testApp.url).post('/api/invitations/look-up').send({ token }).expect(200)
    expect(offer.body).toMatchObject({
      shortName: lab.shortName,
      email: sent.email,
      roles: ['technician', 'auditor'],
      accountExists: false,
    })

    const { body: joined } = await accept({ token, password, name: 'Ada Quill' }).expect(201)
    const { body: session } = await request(testApp.url)
      .post('/api/session')
      .send({ email: sent.email, password })
      .expect(200)
    expect(session.memberships).toMatchObject([
      { labId: lab.labId, membershipId: joined.membershipId, initials: 'AQ', roles: ['technician', 'auditor'] },
    ])

    expect((await accept({ token, password }).expect(409)).body.code).toBe('wrong-state')
    const { body: list } = await lab.as('manager').get(lab.path('/invitations')).expect(200)
    expect(list).toMatchObject([{ state: 'accepted' }])
  })

  test('shows its token once; the same request again is the same invitation, another under its id a conflict', async () => {
    const { sent } = await invite()
    const again = await lab.as('manager').post(lab.path('/invitations')).send(sent).expect(200)
    expect(again.body).toMatchObject({ token: null, invitation: { id: sent.id } })
    const other = await lab
      .as('manager')
      .post(lab.path('/invitations'))
      .send({ ...sent, name: 'Somebody Else' })
      .expect(409)
    expect(other.body).toMatchObject({
      code: 'conflict',
      stored: { invitation: { name: 'Ada Quill' } },
      sent: { name: 'Somebody Else' },
    })
    const { rows } = await testApp.database.identityPool.query(
      "select 1 from information_schema.columns where table_name = 'invitation' and column_name = 'token'",
    )
    expect(rows).toEqual([])
  })

  test('is one invitation when its request comes twice at the same moment', async () => {
    const sent = { id: newId(), email: 'twice@ternhollow.example', name: 'Ada Quill', roles: ['technician'] }
    const answers = await Promise.all([1, 2, 3].map(() => lab.as('manager').post(lab.path('/invitations')).send(sent)))
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 200, 201])
    expect(answers.filter(({ body }) => body.token !== null)).toHaveLength(1)
  })

  test('expires after seven days, and can be taken back', async () => {
    const { token, sent } = await invite()
    testApp.clock.advance({ days: 7 })
    expect((await accept({ token, password }).expect(410)).body.code).toBe('expired')
    const { body: list } = await lab.as('manager').get(lab.path('/invitations')).expect(200)
    expect(list).toMatchObject([{ id: sent.id, state: 'expired' }])
    const second = await invite()
    await lab
      .as('manager')
      .delete(lab.path(`/invitations/${second.sent.id}`))
      .expect(200)
    await lab
      .as('manager')
      .delete(lab.path(`/invitations/${second.sent.id}`))
      .expect(409)
    await accept({ token: second.token, password }).expect(410)
  })

  test('accepted twice at the same moment makes one account and one membership', async () => {
    for (let round = 0; round < 4; round++) {
      const { sent, token } = await invite()
      const statuses = (await Promise.all([accept({ token, password }), accept({ token, password })])).map(
        ({ status }) => status,
      )
      expect(statuses.filter((status) => status === 201)).toHaveLength(1)
      // The other one comes too late for the invitation, or finds the account made already and is asked to sign in with it.
      expect([401, 409]).toContain(statuses.find((status) => status !== 201))
      const { body: people } = await lab.as('manager').get(lab.path('/people')).expect(200)
      expect(people).toHaveLength(9 + round)
      await request(testApp.url).post('/api/session').send({ email: sent.email, password }).expect(200)
    }
  })

  test.each(['accepted first', 'taken back first'])(
    'accepted and taken back at once is one of the two: %s',
    async (first) => {
      const { sent, token } = await invite()
      const acts = [
        async () => accept({ token, password }),
        async () => lab.as('manager').delete(lab.path(`/invitations/${sent.id}`)),
      ]
      const held = { sql: 'select from invitation where id = $1 for update', values: [sent.id] }
      const ordered = first === 'accepted first' ? acts : acts.toReversed()
      const [one, other] = await atOnce(testApp.ownerUrl, held, ...ordered)
      expect(one).toMatchObject({ value: { status: first === 'accepted first' ? 201 : 200 } })
      expect(other).toMatchObject({ value: { status: 409, body: { code: 'wrong-state' } } })
      const { body: list } = await lab.as('manager').get(lab.path('/invitations')).expect(200)
      expect(list).toMatchObject([{ state: first === 'accepted first' ? 'accepted' : 'revoked' }])
      // Nobody is left with an account that opens nothing.
      await request(testApp.url)
        .post('/api/session')
        .send({ email: sent.email, password })
        .expect(first === 'accepted first' ? 200 : 401)
    },
  )

  test('for an address that has an account is accepted by that account, signed in', async () => {
    const guest = (await makeLaboratory(testApp)).people.engineer
    const { token } = await invite({ email: guest.email })
    expect(
      (await request(testApp.url).post('/api/invitations/look-up').send({ token }).expect(200)).body.accountExists,
    ).toBe(true)
    await accept({ token, password }).expect(401)
    await accept({ token }, lab.people.manager.cookie).expect(401)
    await accept({ token }, guest.cookie).expect(201)
    const { body: session } = await request(testApp.url).get('/api/session').set('cookie', guest.cookie).expect(200)
    expect(session.memberships.map(({ labId }: { labId: string }) => labId)).toContain(lab.labId)
    expect(session.memberships).toHaveLength(2)
    const second = await invite({ email: guest.email })
    await accept({ token: second.token }, guest.cookie).expect(409)
    await request(testApp.url).post('/api/session').send({ email: guest.email, password: testPassword }).expect(200)
  })

  test('for a client’s user opens that client’s work and nothing else', async () => {
    await invite({ roles: ['client'] }).then(({ answer }) => expect(answer.status).toBe(400))
    const { sent, token } = await invite({ roles: ['client'], clientId: lab.clientId })
    await accept({ token, password }).expect(201)
    const signedIn = await request(testApp.url).post('/api/session').send({ email: sent.email, password }).expect(200)
    expect(signedIn.body.memberships).toMatchObject([{ roles: ['client'], clientId: lab.clientId }])
  })

  test('needs a password that obeys the rules, and a whole token', async () => {
    const { token } = await invite()
    const answer = await accept({ token, password: `${lab.shortName} ada quill 1` }).expect(400)
    expect(answer.body.errors).toEqual([{ path: 'password', message: expect.stringContaining('others would guess') }])
    await accept({ token }).expect(400)
    await accept({ token: token.slice(0, -2), password }).expect(404)
  })
})
