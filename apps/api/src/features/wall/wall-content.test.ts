import type { WallShown } from '@curebook/contract/wall'
import request from 'supertest'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { confirm, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { soakDiscs } from '../../../../../tests/support/factories/soaking.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-06T08:00:00Z' })
})
afterAll(() => testApp.close())

/** What a screen of the laboratory reads now, as text and as an object. */
async function wallOf(lab: TestLaboratory): Promise<{ wall: WallShown; text: string }> {
  const { body } = await lab
    .as('manager')
    .post(lab.path('/wall-screens'))
    .send({ id: newId(), name: 'Bench room' })
    .expect(201)
  const agent = request.agent(testApp.url)
  await agent.post('/api/wall/pairing').send({ code: body.code }).expect(200)
  const { body: wall, text } = await agent.get('/api/wall').expect(200)
  return { wall, text }
}
const setNames = async (lab: TestLaboratory, wallNames: string) => {
  const { headers } = await lab.as('manager').get(lab.path()).expect(200)
  await lab.as('manager').patch(lab.path()).set('if-match', headers.etag!).send({ wallNames }).expect(200)
}
const logValue = (lab: TestLaboratory, instrument: string, value: string) =>
  lab
    .as('technician')
    .post(lab.path(`/instruments/${instrument}/conditions`))
    .send({ values: [{ id: newId(), at: testApp.clock.now().toISOString(), value }] })
    .expect(200)

describe('the wall', () => {
  it('shows what soaks where, since when, until when, and what the bath last held', async () => {
    const { lab, bath, inside } = await soakDiscs(testApp)
    const putInAt = testApp.clock.now().toISOString()
    testApp.clock.advance({ hours: 1 })
    await logValue(lab, bath.id, '25.4')
    const { wall } = await wallOf(lab)
    expect(wall.ovens).toEqual([
      {
        code: 'BATH-1',
        name: 'Bath, 25 °C',
        kind: 'bath',
        count: inside.length,
        since: putInAt,
        out: { count: inside.length, opensAt: expect.any(String), closesAt: expect.any(String) },
        limits: [{ target: '25', tolerance: '1', unit: '°C' }],
        last: { typed: '25.4', unit: '°C', at: testApp.clock.now().toISOString(), outside: false },
      },
    ])
    const days = (Date.parse(wall.ovens[0]!.out!.closesAt!) - Date.parse(putInAt)) / 86_400_000
    expect(days).toBeGreaterThan(5.5)
    await logValue(lab, bath.id, '27.9')
    expect((await wallOf(lab)).wall.ovens[0]!.last).toMatchObject({ typed: '27.9', outside: true })
  })

  it('says nothing of limits while the bath is empty, and leaves out what is out of service', async () => {
    const lab = await makeLaboratory(testApp)
    const oven = await makeInstrument(testApp, lab, { code: 'OVEN-1', kind: 'oven', name: 'Oven' })
    await logValue(lab, oven.id, '61')
    const [shown] = (await wallOf(lab)).wall.ovens
    expect(shown).toMatchObject({ code: 'OVEN-1', count: 0, since: null, out: null, limits: [] })
    expect(shown!.last).toMatchObject({ typed: '61', outside: null })
    await lab
      .as('manager')
      .patch(lab.path(`/instruments/${oven.id}`))
      .set('if-match', '"1"')
      .send({ state: 'out' })
      .expect(200)
    expect((await wallOf(lab)).wall.ovens).toEqual([])
  })

  it('shows windows that close or open soon, with code, step and place, and drops them when nothing of them is near', async () => {
    const { lab, inside, outside } = await soakDiscs(testApp)
    // Six days ahead the soak concerns nobody; the one that was left outside has to go in by now.
    const codes = ({ windows }: WallShown) => windows.map(({ code }) => code)
    expect(codes((await wallOf(lab)).wall)).not.toContain(inside[0]!.code)
    testApp.clock.advance({ days: 5, hours: 20 })
    const { wall } = await wallOf(lab)
    const row = wall.windows.find(({ code }) => code === inside[0]!.code)!
    expect(row).toEqual({
      code: inside[0]!.code,
      label: inside[0]!.label,
      stepTitle: expect.any(String),
      place: 'BATH-1',
      opensAt: expect.any(String),
      closesAt: expect.any(String),
    })
    expect(row.stepTitle).not.toBe('')
    expect(codes(wall)).not.toContain(outside.code)
    testApp.clock.advance({ days: 3 })
    expect(codes((await wallOf(lab)).wall)).not.toContain(inside[0]!.code)
  })

  it('names no client, no project, no design, no result and no value of a specimen, and no id at all', async () => {
    const { lab, bath, designs } = await soakDiscs(testApp)
    await setNames(lab, 'full')
    await logValue(lab, bath.id, '25.0')
    const { text, wall } = await wallOf(lab)
    expect(wall.people).not.toEqual([])
    const names = await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, async ({ prisma }) => [
      ...(await prisma.client.findMany({ where: { labId: lab.labId } })).map(({ name }) => name),
      ...(await prisma.project.findMany({ where: { labId: lab.labId } })).flatMap(({ name, code }) => [name, code]),
    ])
    expect(names.length).toBeGreaterThan(2)
    // The mass that each disc was weighed with.
    for (const secret of [...names, ...designs, '760', lab.labId])
      expect([secret, text.includes(secret)]).toEqual([secret, false])
    expect(text).not.toMatch(/[0-9a-f]{8}-[0-9a-f]{4}-/)
    expect(text).not.toContain('"First"')
  })
})

describe('people on the wall', () => {
  it('stand with their last step and since when, by initials unless the laboratory says otherwise', async () => {
    const { lab, outside } = await soakDiscs(testApp)
    testApp.clock.advance({ hours: 11 })
    const at = testApp.clock.now().toISOString()
    await confirm(testApp, lab, [outside.testId], 'soak', 'start')
    const { actor } = lab.people.technician
    const person = async () => (await wallOf(lab)).wall
    expect(await person()).toMatchObject({
      names: 'initials',
      atWork: 1,
      people: [{ shownAs: actor.initials, since: at, lastAt: at }],
    })
    await setNames(lab, 'full')
    expect((await person()).people.map(({ shownAs }) => shownAs)).toEqual([actor.name])
    await setNames(lab, 'none')
    const { wall, text } = await wallOf(lab)
    expect([wall.people, wall.atWork]).toEqual([[], 1])
    expect(text).not.toContain(actor.name)
    testApp.clock.advance({ hours: 10, minutes: 1 })
    expect((await person()).atWork).toBe(0)
  })

  it('keep the first time of a step that goes on, and take the title of the method', async () => {
    const { lab, outside } = await soakDiscs(testApp)
    testApp.clock.advance({ hours: 11 })
    const first = testApp.clock.now().toISOString()
    const [before] = await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, ({ prisma }) =>
      prisma.reading.findMany({ where: { labId: lab.labId, testId: outside.testId, stepKey: 'weigh-before' } }),
    )
    const correct = (reading: string, typed: string) =>
      testApp.services.bench.readings.correct(lab.people.technician2.actor, reading, {
        id: newId(),
        typed,
        reason: 'Digits transposed',
        time: timeNow(testApp),
      })
    const { value } = await correct(before!.id, '760.1')
    testApp.clock.advance({ minutes: 20 })
    const last = testApp.clock.now().toISOString()
    await correct(value.reading.id, '760.2')
    testApp.clock.advance({ minutes: 5 })
    const { people } = (await wallOf(lab)).wall
    const { steps } = testApp.services.methods.find(({ key }) => key === 'wet-track-abrasion-6d')!
    expect(people).toEqual([
      {
        shownAs: lab.people.technician2.actor.initials,
        stepTitle: steps.find(({ key }) => key === 'weigh-before')!.title,
        place: null,
        since: first,
        lastAt: last,
      },
    ])
  })
})
