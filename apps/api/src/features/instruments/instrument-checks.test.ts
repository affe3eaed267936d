import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
let wheelId: string

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
  wheelId = (await makeInstrument(testApp, lab, { code: 'LW-1', kind: 'loaded-wheel', name: 'Loaded wheel' })).id
})
afterAll(() => testApp.close())

const aLoad = (typed: string, more: object = {}) => ({
  id: newId(),
  kind: 'load',
  typed,
  time: timeNow(testApp),
  ...more,
})
const add = (body: object, instrument = wheelId, url?: string) =>
  lab
    .as('technician', url)
    .post(lab.path(`/instruments/${instrument}/checks`))
    .send(body)
const list = async (instrument = wheelId) =>
  (
    await lab
      .as('auditor')
      .get(lab.path(`/instruments/${instrument}/checks`))
      .expect(200)
  ).body

describe('the load of the wheel', () => {
  // 125 ± 1 lb, set on a platform scale: ISSA TB-109 (2018), read. 56.8 kg are 125.22 lb, 57.2 kg 126.10 lb.
  it.each([
    ['125.0', true],
    ['126', true],
    ['126.1', false],
    ['123,9', false],
    ['56.8 kg', true],
    ['57.2 kg', false],
  ])('read as %s by the edition’s 125 ± 1 lb: passed %s', async (typed, passed) => {
    const { body } = await add(aLoad(typed)).expect(201)
    expect(body).toMatchObject({
      typed,
      passed,
      bounds: { nominal: '125', tolerance: '1', unit: 'lb', source: 'ISSA TB-109 (2018)' },
    })
  })

  it('is kept once, pass or fail, with its reading under its own ledger entry', async () => {
    const failed = aLoad('127')
    const { body } = await add(failed).expect(201)
    expect((await add(failed).expect(200)).body).toEqual(body)
    await add({ ...failed, typed: '125' }).expect(409)
    expect((await list()).loadBounds).toMatchObject({ nominal: '125', unit: 'lb' })
    expect((await list()).items).toEqual([body])
    const rows = await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, async ({ prisma }) => ({
      readings: await prisma.reading.findMany({ where: { instrumentCheckId: failed.id } }),
      entries: await prisma.ledgerEntry.findMany({ where: { subjectId: failed.id } }),
    }))
    expect(rows.readings.map(({ typed, unit }) => [typed, unit])).toEqual([['127', 'lb']])
    const [content] = rows.entries.map((entry) => JSON.parse(entry.content))
    expect(content.rows[0]).toMatchObject({ table: 'reading', row: { id: rows.readings[0]!.id, value: '127' } })
    await testApp.services.sealer.sealNow()
    const verified = await testApp.services.ledger.verify(lab.people.manager.actor, {})
    expect(verified).toMatchObject({ whole: true })
  })

  it('stands beside the machine on the bench: the last one that stands', async () => {
    const { specimens } = await makePlannedDesign(
      testApp,
      lab,
      aSeries({ methods: [{ methodKey: 'loaded-wheel-sand-adhesion', replicates: 1, spares: [] }] }),
    )
    const wheel = async () =>
      (await testApp.services.bench.view.one(lab.people.technician.actor, specimens[0]!.testId)).instruments.find(
        ({ id }) => id === wheelId,
      )!
    expect((await wheel()).loadCheck).toBeNull()
    const wrong = aLoad('152')
    await add(wrong).expect(201)
    expect((await wheel()).loadCheck).toMatchObject({ typed: '152', passed: false })
    await add(aLoad('125.2', { supersedes: { id: wrong.id, reason: 'Digits exchanged' } })).expect(201)
    expect((await wheel()).loadCheck).toMatchObject({
      typed: '125.2',
      passed: true,
      checkedAt: testApp.clock.now().toISOString(),
    })
    const { items } = await list()
    expect(items.map((item: { typed: string; superseded: boolean }) => [item.typed, item.superseded])).toContainEqual([
      '152',
      true,
    ])
  })

  it('of two corrections of one entry at once one stands, the other is told', async () => {
    const wrong = aLoad('152')
    await add(wrong).expect(201)
    const another = await testApp.startAnother()
    const correction = (typed: string) => aLoad(typed, { supersedes: { id: wrong.id, reason: 'Digits exchanged' } })
    const answers = await Promise.all([add(correction('125.2')), add(correction('125.1'), wheelId, another.url)])
    await another.close()
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
    expect((await list()).items.filter(({ superseded }: { superseded: boolean }) => !superseded)).toHaveLength(1)
  })
})

describe('other checks', () => {
  const bounds = { nominal: '200.0', tolerance: '0.1', unit: 'g', source: 'Own sheet, revision 3' }
  it('are judged by what the laboratory says, and need it', async () => {
    const { id } = await makeInstrument(testApp, lab, { code: 'BAL-1', kind: 'balance', name: 'Balance' })
    const aMass = (typed: string, more: object = {}) => ({
      id: newId(),
      kind: 'known-mass',
      typed,
      bounds,
      reference: 'Mass M-4',
      time: timeNow(testApp),
      ...more,
    })
    expect((await add(aMass('200.1'), id).expect(201)).body).toMatchObject({ passed: true, reference: 'Mass M-4' })
    expect((await add(aMass('199,8'), id).expect(201)).body.passed).toBe(false)
    const path = async (body: object) => (await add(body, id).expect(400)).body.errors[0].path
    expect(await path(aMass('200', { bounds: undefined }))).toBe('bounds.nominal')
    expect(await path(aMass('heavy'))).toBe('typed')
    expect(await path(aMass('200', { bounds: { ...bounds, unit: 'mm' } }))).toBe('bounds.unit')
    expect(await path(aMass('200', { bounds: { ...bounds, tolerance: 'little' } }))).toBe('bounds.tolerance')
    expect(await path(aLoad('125'))).toBe('kind')
  })
})
