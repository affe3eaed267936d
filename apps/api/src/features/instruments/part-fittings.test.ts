import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { aReading, confirm, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeFactor, makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
let machineId: string

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
  machineId = (await makeInstrument(testApp, lab)).id
})
afterAll(() => testApp.close())

const aHose = (lot: string, more: object = {}) => ({ id: newId(), kind: 'hose', lot, time: timeNow(testApp), ...more })
const fitLot = (body: object, instrument = machineId, url?: string) =>
  lab
    .as('technician', url)
    .post(lab.path(`/instruments/${instrument}/parts`))
    .send(body)
const list = async () =>
  (
    await lab
      .as('auditor')
      .get(lab.path(`/instruments/${machineId}/parts`))
      .expect(200)
  ).body.items
const lots = () =>
  testApp.services.laboratory.inLaboratory(lab.people.manager.actor, ({ prisma }) =>
    prisma.partLot.findMany({ orderBy: { lot: 'asc' } }),
  )

describe('lots on a machine', () => {
  it('goes on, ends the one before it, and both stay in the list', async () => {
    const first = aHose('H-07', { hardness: '62,5' })
    const { body } = await fitLot(first).expect(201)
    expect(body).toMatchObject({ lot: 'H-07', hardness: '62,5', takenOffAt: null, superseded: false })
    expect((await fitLot(first).expect(200)).body).toEqual(body)
    testApp.clock.advance({ hours: 30 })
    const changedAt = testApp.clock.now().toISOString()
    await fitLot(aHose('H-08')).expect(201)
    expect(await list()).toMatchObject([
      { lot: 'H-08', hardness: null, fittedAt: changedAt, takenOffAt: null },
      { lot: 'H-07', hardness: '62,5', takenOffAt: changedAt },
    ])
    const [seven, eight] = await lots()
    expect([seven!.fittedOnId, seven!.hardness?.toFixed(), eight!.fittedOnId]).toEqual([null, '62.5', machineId])
  })

  it('is refused where it cannot be: on another machine, with a hardness of nothing, in the future', async () => {
    const path = async (body: object, instrument?: string) =>
      (await fitLot(body, instrument).expect(400)).body.errors[0].path
    const { id: oven } = await makeInstrument(testApp, lab, { code: 'OV-1', kind: 'oven', name: 'Oven' })
    expect(await path(aHose('H-07'), oven)).toBe('kind')
    expect(await path({ ...aHose('T-01'), kind: 'tyre' })).toBe('kind')
    expect(await path(aHose('H-07', { hardness: '0' }))).toBe('hardness')
    expect(await path(aHose('H-07', { hardness: 'hard' }))).toBe('hardness')
    const later = new Date(testApp.clock.now().getTime() + 3_600_000).toISOString()
    expect(await path(aHose('H-07', { time: { ...timeNow(testApp), eventAt: later } }))).toBe('time.eventAt')
    expect(await list()).toEqual([])
  })

  it('entered in error is superseded with the reason; of two corrections at once one stands', async () => {
    const wrong = aHose('H-70')
    await fitLot(wrong).expect(201)
    const another = await testApp.startAnother()
    const correction = (lot: string) => aHose(lot, { supersedes: { id: wrong.id, reason: 'Digits exchanged' } })
    const answers = await Promise.all([fitLot(correction('H-07')), fitLot(correction('H-17'), machineId, another.url)])
    await another.close()
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
    const items = await list()
    expect(items).toHaveLength(2)
    expect(items.find(({ id }: { id: string }) => id === wrong.id)).toMatchObject({
      superseded: true,
      takenOffAt: null,
    })
    const stands = items.find(({ superseded }: { superseded: boolean }) => !superseded)
    expect(stands.supersedes).toEqual({ id: wrong.id, reason: 'Digits exchanged' })
    const on = (await lots()).filter(({ fittedOnId }) => fittedOnId === machineId)
    expect(on.map(({ lot }) => lot)).toEqual([stands.lot])
  })

  it('two new lots at once both stand in the record, and one is on', async () => {
    const another = await testApp.startAnother()
    await Promise.all([fitLot(aHose('H-07')).expect(201), fitLot(aHose('H-08'), machineId, another.url).expect(201)])
    await another.close()
    const items = await list()
    expect(items).toHaveLength(2)
    expect(items.filter(({ takenOffAt }: { takenOffAt: string | null }) => takenOffAt === null)).toHaveLength(1)
    const on = (await lots()).filter(({ fittedOnId }) => fittedOnId === machineId)
    expect(on.map(({ lot }) => lot)).toEqual([items[0].lot])
  })

  it('a lot named for the first time on two machines at once is one lot', async () => {
    const { id: second } = await makeInstrument(testApp, lab, { code: 'WTA-2' })
    const another = await testApp.startAnother()
    const held = { sql: 'select from laboratory where id = $1 for update', values: [lab.labId] }
    const outcomes = await atOnce(
      testApp.ownerUrl,
      held,
      async () => fitLot(aHose('H-07')),
      async () => fitLot(aHose('H-07'), second, another.url),
    )
    await another.close()
    expect(outcomes).toMatchObject([{ value: { status: 201 } }, { value: { status: 201 } }])
    expect((await lots()).map(({ lot }) => lot)).toEqual(['H-07'])
  })
})

describe('the lot of a run', () => {
  it('is what was on when the run began, kept with it, whenever the change is told', async () => {
    await makeFactor(testApp, lab, machineId)
    const { specimens } = await makePlannedDesign(
      testApp,
      lab,
      aSeries({ methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 2, spares: [] }] }),
    )
    const [one, two] = specimens.map(({ testId }) => testId)
    const view = (id: string) => testApp.services.bench.view.one(lab.people.technician.actor, id)
    const partsAt = async (id: string) =>
      (await view(id)).events.find(({ stepKey, kind }) => stepKey === 'abrade' && kind === 'start')?.parts
    for (const id of [one!, two!])
      await testApp.services.bench.readings.post(
        lab.people.technician.actor,
        id,
        aReading(testApp, 'weigh-before', 'mass', '760.0'),
      )
    await fitLot(aHose('H-07')).expect(201)
    await fitLot({ ...aHose('F-02'), kind: 'felt' }).expect(201)
    const fittedAt = testApp.clock.now().toISOString()
    testApp.clock.advance({ minutes: 20 })
    await confirm(testApp, lab, [one!], 'abrade', 'start', machineId)
    const both = [
      { kind: 'felt', lot: 'F-02', fittedAt },
      { kind: 'hose', lot: 'H-07', fittedAt },
    ]
    expect(await partsAt(one!)).toEqual(both)
    expect((await view(two!)).instruments.find(({ id }) => id === machineId)?.parts).toEqual(both)
    const used = await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, ({ prisma }) =>
      prisma.equipmentUse.findMany({ where: { instrumentId: machineId }, include: { partLot: true } }),
    )
    expect(used.map(({ partLot }) => partLot?.lot).sort()).toEqual(['F-02', 'H-07'])

    testApp.clock.advance({ minutes: 10 })
    const changedAt = testApp.clock.now().toISOString()
    testApp.clock.advance({ minutes: 5 })
    await confirm(testApp, lab, [two!], 'abrade', 'start', machineId)
    testApp.clock.advance({ minutes: 3 })
    await fitLot(aHose('H-08', { time: { ...timeNow(testApp), eventAt: changedAt, eventFrom: 'ago' } })).expect(201)
    expect(await partsAt(one!)).toEqual(both)
    expect((await partsAt(two!))?.find(({ kind }) => kind === 'hose')).toEqual({
      kind: 'hose',
      lot: 'H-08',
      fittedAt: changedAt,
    })
  })
})
