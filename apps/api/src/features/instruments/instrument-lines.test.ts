import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
let balanceId: string

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
  balanceId = (await makeInstrument(testApp, lab, { code: 'B-1', kind: 'balance', name: '6 kg balance' })).id
})
afterAll(() => testApp.close())

const settings = { baudRate: 9600, dataBits: 8, parity: 'none', stopBits: 1 }
const aLine = (more: object = {}) => ({
  id: newId(),
  ...settings,
  example: 'ST,GS,+  0812.4 g',
  shown: '812.4',
  ...more,
})
const setLine = (body: object, instrument = balanceId, url?: string) =>
  lab
    .as('technician', url)
    .post(lab.path(`/instruments/${instrument}/lines`))
    .send(body)
const list = async () =>
  (
    await lab
      .as('auditor')
      .get(lab.path(`/instruments/${balanceId}/lines`))
      .expect(200)
  ).body.items

describe('how a balance sends', () => {
  it('is kept with its example; another one takes its place with the reason, and both stay', async () => {
    const first = aLine()
    const { body } = await setLine(first).expect(201)
    expect(body).toMatchObject({ ...settings, example: 'ST,GS,+  0812.4 g', shown: '812.4', superseded: false })
    expect((await setLine(first).expect(200)).body).toEqual(body)
    await setLine({ ...first, baudRate: 2400 }).expect(409)
    const second = aLine({ baudRate: 4800, supersedes: { id: first.id, reason: 'Set anew after service' } })
    await setLine(second).expect(201)
    expect(await list()).toMatchObject([
      { id: second.id, baudRate: 4800, superseded: false, supersedes: { reason: 'Set anew after service' } },
      { id: first.id, baudRate: 9600, superseded: true },
    ])
  })

  it('is refused where nothing can be learnt, with the sentence at the line', async () => {
    const fault = async (body: object, instrument?: string) =>
      (await setLine(body, instrument).expect(400)).body.errors[0]
    expect(await fault(aLine({ shown: '812.5' }))).toEqual({
      path: 'example',
      message: '812.5 does not stand in the line: check both, digit by digit.',
    })
    expect(await fault(aLine({ shown: '' }))).toMatchObject({ path: 'shown' })
    expect(await fault(aLine({ baudRate: 9601 }))).toMatchObject({ path: 'baudRate' })
    const { id: oven } = await makeInstrument(testApp, lab, { code: 'OV-1', kind: 'oven', name: 'Oven' })
    expect((await fault(aLine(), oven)).message).toContain('OV-1 is no balance')
    expect(await list()).toEqual([])
  })

  it('of two at once one stands and the other is told, for the first one as for a change', async () => {
    const another = await testApp.startAnother()
    const both = async (one: object, two: object) =>
      (await Promise.all([setLine(one), setLine(two, balanceId, another.url)])).map(({ status }) => status).sort()
    expect(await both(aLine(), aLine({ baudRate: 2400 }))).toEqual([201, 409])
    const [first] = await list()
    const change = (baudRate: number) => aLine({ baudRate, supersedes: { id: first.id, reason: 'Set anew' } })
    expect(await both(change(4800), change(19_200))).toEqual([201, 409])
    await another.close()
    const items = await list()
    expect(items).toHaveLength(2)
    expect(items.filter(({ superseded }: { superseded: boolean }) => !superseded)).toHaveLength(1)
  })

  it('stands at the bench beside the balance, the latest one only', async () => {
    const { specimens } = await makePlannedDesign(
      testApp,
      lab,
      aSeries({ methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 2, spares: [] }] }),
    )
    const lineAtBench = async () => {
      const view = await testApp.services.bench.view.one(lab.people.technician.actor, specimens[0]!.testId)
      return view.instruments.find(({ id }) => id === balanceId)?.line
    }
    expect(await lineAtBench()).toBeNull()
    const first = aLine()
    await setLine(first).expect(201)
    await setLine(aLine({ parity: 'even', supersedes: { id: first.id, reason: 'Set anew' } })).expect(201)
    expect(await lineAtBench()).toEqual({ ...settings, parity: 'even', example: first.example, shown: '812.4' })
    // What the balance sent is kept as it came, told by the instrument, and read like a typed number.
    const technician = lab.people.technician.actor
    const typed = 'ST,GS,+  0812.4 g'
    const { value } = await testApp.services.bench.readings.post(
      technician,
      specimens[0]!.testId,
      aReading(testApp, 'weigh-before', 'mass', typed, {
        instrumentId: balanceId,
        time: { ...timeNow(testApp), eventFrom: 'instrument' },
      }),
    )
    const { reading } = value
    expect(reading).toMatchObject({ typed, value: '812.4', unit: 'g' })
    const [row] = await testApp.services.laboratory.inLaboratory(technician, ({ prisma }) =>
      prisma.reading.findMany({ where: { id: reading.id }, select: { eventFrom: true } }),
    )
    expect(row?.eventFrom).toBe('instrument')
  })
})
