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

  it('of a cohesion tester are the pressure of its foot and the torque on a check surface, each in its units', async () => {
    const { id } = await makeInstrument(testApp, lab, {
      code: 'COH-1',
      kind: 'cohesion-tester',
      name: 'Cohesion tester, foot of 28.6 mm',
    })
    const aCheck = (kind: string, typed: string, unit: string, nominal: string, tolerance: string) => ({
      id: newId(),
      kind,
      typed,
      bounds: { nominal, tolerance, unit, source: 'Own sheet, revision 3' },
      reference: null,
      time: timeNow(testApp),
    })
    expect((await add(aCheck('pressure', '197', 'kPa', '200', '5'), id).expect(201)).body.passed).toBe(true)
    expect((await add(aCheck('pressure', '27', 'psi', '28.5', '0.7'), id).expect(201)).body.passed).toBe(false)
    expect((await add(aCheck('torque', '19.5', 'kg·cm', '20', '1'), id).expect(201)).body.passed).toBe(true)
    const { body } = await add(aCheck('torque', '19.5', 'kPa', '20', '1'), id).expect(400)
    expect(body.errors).toMatchObject([{ path: 'bounds.unit', message: 'This is read in kg·cm or N·m.' }])
  })
})

describe('checks over time', () => {
  const aMass = (typed: string, minutes: number, more: object = {}) => ({
    ...{ id: newId(), kind: 'known-mass', typed },
    time: {
      ...timeNow(testApp),
      eventAt: new Date(testApp.clock.now().getTime() - minutes * 60_000).toISOString(),
      eventFrom: 'ago',
      note: 'from the log',
    },
    bounds: { nominal: '50', tolerance: '10', unit: 'g', source: 'Own procedure' },
    ...more,
  })

  it('say how many are missing, and from eight on have limits and the signals of named rules', async () => {
    const balance = (await makeInstrument(testApp, lab, { code: 'B-9', kind: 'balance', name: 'Balance' })).id
    // NIST/SEMATECH e-Handbook 6.3.2.2, as masses; entered from the last to the first.
    const read = ['49.6', '47.6', '49.9', '51.3', '47.8', '51.2', '52.6', '52.4', '53.6', '52.1']
    for (const [index, typed] of read.slice(0, 7).entries()) await add(aMass(typed, 100 - index), balance).expect(201)
    const [few] = (await list(balance)).charts
    expect(few).toMatchObject({ kind: 'known-mass', nominal: '50', unit: 'g', count: 7, missing: 1, limits: null })

    const wrong = aMass('92.4', 93)
    await add(wrong, balance).expect(201)
    const supersedes = { id: wrong.id, reason: 'Misread' }
    await add(aMass('52.4', 93, { supersedes }), balance).expect(201)
    for (const [index, typed] of read.slice(8).entries()) await add(aMass(typed, 92 - index), balance).expect(201)
    await add(
      aMass('100', 80, { bounds: { nominal: '100', tolerance: '1', unit: 'g', source: 'Own' } }),
      balance,
    ).expect(201)
    const { charts } = await list(balance)
    // Of another mass there is one check, and no chart.
    expect(charts).toHaveLength(1)
    expect(charts[0]).toMatchObject({
      count: 10,
      missing: 0,
      limits: { individuals: { centre: '50.81' }, rules: 'Western Electric' },
    })
    expect(charts[0].points.map(({ value }: { value: string }) => value)).toEqual(read)
    expect(charts[0].points.map(({ movingRange }: { movingRange: string | null }) => movingRange)).toEqual([
      null,
      ...['2', '2.3', '1.4', '3.5', '3.4', '1.4', '0.2', '1.2', '1.5'],
    ])
    // Printed with d2 = 1.128.
    expect(Number(charts[0].limits.individuals.upper)).toBeCloseTo(55.8041, 2)
    expect(Number(charts[0].limits.individuals.lower)).toBeCloseTo(45.8159, 2)

    await add(aMass('59', 60), balance).expect(201)
    const after = (await list(balance)).charts[0]
    expect(after.points.at(-1)).toMatchObject({
      value: '59',
      signals: expect.arrayContaining([expect.stringContaining('σ')]),
    })
  })
})
