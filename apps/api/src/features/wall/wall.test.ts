import type { MadeWallCode, Wall, WallScreen, WallShown } from '@curebook/contract/wall'
import request from 'supertest'
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import { buildVersion } from '#platform/build'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-06T08:00:00Z' })
})
afterAll(() => testApp.close())
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
  await testApp.database.identityPool.query('delete from identity_rate')
})

const make = async (name = 'Bench room', of = lab) =>
  (await of.as('manager').post(of.path('/wall-screens')).send({ id: newId(), name }).expect(201)).body as MadeWallCode
const list = async () => (await lab.as('auditor').get(lab.path('/wall-screens')).expect(200)).body as WallScreen[]
const end = (id: string) => lab.as('manager').post(lab.path(`/wall-screens/${id}/end`))
const anotherCode = (id: string) =>
  lab
    .as('manager')
    .post(lab.path(`/wall-screens/${id}/codes`))
    .send({ id: newId() })

/** A browser of its own, which keeps its cookies. */
function aBrowser(url = testApp.url) {
  const agent = request.agent(url)
  return {
    agent,
    pair: (code: string | null) => agent.post('/api/wall/pairing').send({ code }),
    look: async () => (await agent.get('/api/wall').expect(200)).body as Wall,
  }
}
async function aScreen(name?: string, of = lab) {
  const { screen, code } = await make(name, of)
  const browser = aBrowser()
  await browser.pair(code).expect(200)
  return { ...browser, id: screen.id }
}
const ledgerOf = async (subjectId: string) =>
  (
    await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, ({ prisma }) =>
      prisma.ledgerEntry.findMany({ where: { labId: lab.labId, subjectId }, orderBy: { writtenAt: 'asc' } }),
    )
  ).map(({ action, actorId }) => [action, actorId])

describe('a wall screen', () => {
  it('is made by a manager, paired by its code, and reads the wall', async () => {
    const { screen, code } = await make()
    expect(code).toMatch(/^[A-Z2-9]{4}-[A-Z2-9]{4}$/)
    expect(screen).toMatchObject({ name: 'Bench room', state: 'waiting', codeUntil: '2026-03-06T08:10:00.000Z' })
    const browser = aBrowser()
    expect(await browser.look()).toEqual({ state: 'unpaired' })
    const { body, headers } = await browser.pair(` ${code!.toLowerCase().replace('-', ' ')} `).expect(200)
    expect(body).toEqual({ name: 'Bench room' })
    expect(headers['set-cookie']![0]).toMatch(
      /^curebook\.wall=[\w-]{43}; Max-Age=34560000; Path=\/api\/wall; HttpOnly; SameSite=Strict$/,
    )
    expect(await browser.look()).toMatchObject({
      state: 'shown',
      build: buildVersion(),
      screen: 'Bench room',
      zone: 'Europe/London',
    })
    expect(await list()).toMatchObject([
      { id: screen.id, state: 'paired', codeUntil: null, seenAt: testApp.clock.now().toISOString(), ended: null },
    ])
  })

  it('keeps neither code nor key, only their digests, and shows the code once', async () => {
    const id = newId()
    const send = () => lab.as('manager').post(lab.path('/wall-screens')).send({ id, name: 'Store' })
    const { code } = (await send().expect(201)).body as MadeWallCode
    expect((await send().expect(200)).body).toMatchObject({ screen: { id }, code: null })
    const { headers } = await aBrowser().pair(code).expect(200)
    const key = /=([\w-]{43});/.exec(headers['set-cookie']![0]!)![1]!
    const stored = await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, async ({ prisma }) =>
      JSON.stringify([
        await prisma.wallCode.findMany(),
        await prisma.wallPairing.findMany(),
        await prisma.ledgerEntry.findMany({ select: { content: true } }),
      ]),
    )
    for (const secret of [key, code!, code!.replace('-', '')]) expect(stored).not.toContain(secret)
  })

  it('stands in the ledger as made, paired and ended', async () => {
    const { id } = await aScreen()
    await end(id).expect(200)
    const manager = lab.people.manager.actor.membershipId
    expect(await ledgerOf(id)).toEqual([
      ['wall-screen:create', manager],
      ['wall-screen:pair', null],
      ['wall-screen:end', manager],
    ])
  })

  it('says when it last looked, to the minute', async () => {
    const { look } = await aScreen()
    await look()
    const first = testApp.clock.now().toISOString()
    testApp.clock.advance({ seconds: 30 })
    await look()
    expect((await list())[0]!.seenAt).toBe(first)
    testApp.clock.advance({ seconds: 30 })
    await look()
    expect((await list())[0]!.seenAt).toBe(testApp.clock.now().toISOString())
  })

  it('is made and ended by a manager alone', async () => {
    const { screen } = await make()
    for (const who of ['technician', 'engineer', 'auditor', 'client'] as const) {
      await lab.as(who).post(lab.path('/wall-screens')).send({ id: newId(), name: 'Mine' }).expect(403)
      await lab
        .as(who)
        .post(lab.path(`/wall-screens/${screen.id}/codes`))
        .send({ id: newId() })
        .expect(403)
      await lab
        .as(who)
        .post(lab.path(`/wall-screens/${screen.id}/end`))
        .expect(403)
    }
  })

  it('opens no other address, to read or to write', async () => {
    const { agent } = await aScreen()
    const { headers } = await agent.get('/api/wall').expect(200)
    const cookie = headers['set-cookie']![0]!.split(';')[0]!
    // Sent by hand to where no browser sends it.
    for (const path of ['', '/events', '/bench/queue?whose=all', '/loads', '/schedule', '/people', '/wall-screens'])
      expect([path, (await request(testApp.url).get(lab.path(path)).set('cookie', cookie)).status]).toEqual([path, 401])
    await request(testApp.url).get('/api/session').set('cookie', cookie).expect(401)
    await request(testApp.url)
      .post(lab.path('/wall-screens'))
      .set('cookie', cookie)
      .send({ id: newId(), name: 'Another' })
      .expect(401)
  })

  it('stands in the contract that the server hands out', async () => {
    const { body } = await request(testApp.url).get('/api/docs/json').expect(200)
    expect(Object.keys(body.paths['/api/wall/pairing'])).toEqual(['post'])
    expect(Object.keys(body.paths['/api/wall'])).toEqual(['get'])
  })

  it('answers what nobody may keep or find', async () => {
    const { agent } = await aScreen()
    const { headers } = await agent.get('/api/wall').expect(200)
    expect([headers['cache-control'], headers['x-robots-tag']]).toEqual(['no-store', 'noindex, nofollow'])
  })
})

describe('an ended wall screen', () => {
  it('is told at its next look, and holds nothing after it', async () => {
    const { id, look, agent } = await aScreen()
    expect((await look()).state).toBe('shown')
    const ended = (await end(id).expect(200)).body as WallScreen
    expect(ended).toMatchObject({ state: 'ended', ended: { by: { name: 'Person manager' } } })
    const { body, headers } = await agent.get('/api/wall').expect(200)
    expect(body).toEqual({ state: 'ended', screen: 'Bench room' })
    expect(headers['set-cookie']![0]).toBe('curebook.wall=; Max-Age=0; Path=/api/wall; HttpOnly; SameSite=Strict')
    expect(await look()).toEqual({ state: 'unpaired' })
  })

  it('ended again is what it was, also by two at the same moment', async () => {
    const { id } = await aScreen()
    const answers = await Promise.all([end(id), end(id)])
    expect(answers.map(({ status }) => status)).toEqual([200, 200])
    expect(answers[0]!.body.ended).toEqual(answers[1]!.body.ended)
    expect((await ledgerOf(id)).filter(([action]) => action === 'wall-screen:end')).toHaveLength(1)
  })

  it('takes no code any more, neither the one that was made nor a new one', async () => {
    const { screen, code } = await make()
    await end(screen.id).expect(200)
    expect((await aBrowser().pair(code).expect(410)).body.errors[0].path).toBe('code')
    await anotherCode(screen.id).expect(409)
  })
})

describe('a pairing code', () => {
  it('that is wrong opens nothing, and says so beside its field', async () => {
    await make()
    const { body } = await aBrowser().pair('AAAA-2222').expect(404)
    expect(body.errors).toEqual([{ path: 'code', message: body.detail }])
    expect((await aBrowser().pair('AAAA').expect(400)).body.errors[0].path).toBe('code')
  })

  it('holds for ten minutes', async () => {
    const [first, second] = [await make('One'), await make('Two')]
    testApp.clock.advance({ minutes: 9, seconds: 59 })
    await aBrowser().pair(first.code).expect(200)
    testApp.clock.advance({ seconds: 1 })
    await aBrowser().pair(second.code).expect(410)
    expect((await list()).map(({ name, state, codeUntil }) => [name, state, codeUntil])).toEqual([
      ['Two', 'waiting', null],
      ['One', 'paired', null],
    ])
  })

  it('serves once', async () => {
    const { code } = await make()
    await aBrowser().pair(code).expect(200)
    expect((await aBrowser().pair(code).expect(410)).body.detail).toContain('a code serves once')
  })

  it('typed on two browsers at the same moment makes one of them the screen', async () => {
    const { code, screen } = await make()
    const another = await testApp.startAnother()
    const browsers = [aBrowser(), aBrowser(another.url)]
    const answers = await Promise.all(browsers.map(({ pair }) => pair(code)))
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 410])
    expect((await Promise.all(browsers.map(({ look }) => look()))).map(({ state }) => state).sort()).toEqual([
      'shown',
      'unpaired',
    ])
    expect((await ledgerOf(screen.id)).filter(([action]) => action === 'wall-screen:pair')).toHaveLength(1)
    await another.close()
  })

  it('typed while the screen is ended leaves no browser that reads on', async () => {
    const { code, screen } = await make()
    const browser = aBrowser()
    const [paired, ended] = await Promise.all([browser.pair(code), end(screen.id)])
    expect(ended.status).toBe(200)
    expect([200, 410]).toContain(paired.status)
    expect((await browser.look()).state).toBe(paired.status === 200 ? 'ended' : 'unpaired')
  })

  it.each(['typed first', 'made first'])('typed while another is made holds, or holds no more: %s', async (first) => {
    const { code, screen } = await make()
    const browser = aBrowser()
    const acts = [async () => browser.pair(code), async () => anotherCode(screen.id)]
    const held = { sql: 'select pg_advisory_xact_lock(hashtextextended($1, 0))', values: [`wall screen ${screen.id}`] }
    const [one, other] = await atOnce(testApp.ownerUrl, held, ...(first === 'typed first' ? acts : acts.toReversed()))
    expect([one, other]).toMatchObject(
      first === 'typed first'
        ? [{ value: { status: 200 } }, { value: { status: 201 } }]
        : [{ value: { status: 201 } }, { value: { status: 410 } }],
    )
    expect((await browser.look()).state).toBe(first === 'typed first' ? 'shown' : 'unpaired')
    // The newer code is for whoever types it next, in either case.
    const made = (first === 'typed first' ? other : one) as PromiseFulfilledResult<{ body: MadeWallCode }>
    await aBrowser().pair(made.value.body.code).expect(200)
  })

  it('is replaced by another one of the screen, whose browser takes the place of the first', async () => {
    const { screen, code } = await make()
    const again = (await anotherCode(screen.id).expect(201)).body as MadeWallCode
    await aBrowser().pair(code).expect(410)
    const first = aBrowser()
    await first.pair(again.code).expect(200)
    const third = (await anotherCode(screen.id).expect(201)).body as MadeWallCode
    expect((await first.look()).state).toBe('shown')
    const second = aBrowser()
    await second.pair(third.code).expect(200)
    expect([(await first.look()).state, (await second.look()).state]).toEqual(['ended', 'shown'])
  })

  it('is guessed no more than a hundred times from one address, the right one included', async () => {
    const { code } = await make()
    const guesser = aBrowser()
    for (let time = 0; time < 100; time += 1) await guesser.pair('AAAA-2222').expect(404)
    await guesser.pair(code).expect(429)
    await testApp.database.identityPool.query('delete from identity_rate')
    await guesser.pair(code).expect(200)
  })
})

describe('the wall of one laboratory', () => {
  it('shows nothing of another, and another’s manager ends nothing here', async () => {
    const elsewhere = await makeLaboratory(testApp)
    const [here, there] = [await aScreen('Here'), await aScreen('There', elsewhere)]
    const walls = [(await here.look()) as WallShown, (await there.look()) as WallShown]
    expect(walls.map(({ screen }) => screen)).toEqual(['Here', 'There'])
    expect(walls[0]!.laboratory).not.toBe(walls[1]!.laboratory)
    await elsewhere
      .as('manager')
      .post(elsewhere.path(`/wall-screens/${here.id}/end`))
      .expect(404)
    await elsewhere
      .as('manager')
      .post(elsewhere.path(`/wall-screens/${here.id}/codes`))
      .send({ id: newId() })
      .expect(404)
    expect((await list()).map(({ name }) => name)).toEqual(['Here'])
  })
})
