import type { SpecimenRow } from '@curebook/contract/designs'
import type { PutIn, SettlePutIn } from '@curebook/contract/put-in'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, confirm, weighBatch } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
let designId: string
let discs: Map<string, SpecimenRow>
const methodKey = 'wet-track-abrasion-1h'

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-04T09:00:00Z' })
})
beforeEach(async () => {
  testApp.clock.set('2026-03-04T09:00:00Z')
  lab = await makeLaboratory(testApp)
  ;({ designId, discs } = await aDesign())
})
afterAll(() => testApp.close())

async function aDesign() {
  const { design, specimens } = await makePlannedDesign(
    testApp,
    lab,
    aSeries({ contents: ['10'], methods: [{ methodKey, replicates: 3, spares: [] }] }),
  )
  return { designId: design.id, discs: new Map(specimens.map((specimen) => [specimen.label, specimen])) }
}
const idOf = (label: string, of = discs) => of.get(label)!.testId
const at = (clock: string) => `2026-03-04T${clock}:00.000Z`
const read = async (design = designId): Promise<PutIn> =>
  (
    await lab
      .as('technician')
      .get(lab.path(`/bench/put-in?designId=${design}&methodKey=${methodKey}`))
      .expect(200)
  ).body
const aList = (rows: readonly (readonly [string, string | null, string])[], more: Partial<SettlePutIn> = {}) => ({
  ...{ id: newId(), designId, methodKey, instrumentId: null, runMinutes: 15, supersedes: null },
  rows: rows.map(([label, putInAt, startAt]) => ({
    testId: idOf(label),
    putInAt: putInAt && at(putInAt),
    startAt: at(startAt),
  })),
  ...more,
})
const settle = (body: object, { by = 'technician', url }: { by?: PersonKey; url?: string } = {}) =>
  lab.as(by, url).post(lab.path('/bench/put-in-lists')).send(body)
const refusals = async (body: object) =>
  ((await settle(body).expect(400)).body.errors as { path: string; message: string }[]).map(
    ({ path, message }) => `${path}: ${message}`,
  )
async function setBreaks(breaks: { from: string; to: string }[]) {
  const { headers } = await lab.as('manager').get(lab.path()).expect(200)
  await lab.as('manager').patch(lab.path()).set('if-match', headers.etag!).send({ breaks }).expect(200)
}

test('a settled list stands with by whom, when and its times; sent again it is the same', async () => {
  const machine = await makeInstrument(testApp, lab)
  const body = aList(
    [
      ['10-1', '09:30', '10:32'],
      ['10-2', '09:45', '10:47'],
    ],
    { instrumentId: machine.id },
  )
  await settle(body).expect(201)
  await settle(body).expect(200)
  await settle({ ...body, runMinutes: 14 }).expect(409)
  const { settled, machines } = await read()
  expect(settled).toMatchObject({
    ...{ id: body.id, at: at('09:00'), reason: null, runMinutes: 15 },
    by: { name: 'Person technician' },
    instrument: { id: machine.id, code: machine.code },
  })
  expect(machines).toContainEqual({ id: machine.id, code: machine.code, name: machine.name })
  expect(
    settled!.rows.map(({ label, putInAt, startAt, mustStartAt }) => [label, putInAt, startAt, mustStartAt]),
  ).toEqual([
    ['10-1', at('09:30'), at('10:32'), at('10:45')],
    ['10-2', at('09:45'), at('10:47'), at('11:00')],
  ])
})

test('a later list takes its place with a reason; the earlier stays as it was', async () => {
  const first = aList([['10-1', '09:30', '10:32']])
  await settle(first).expect(201)
  const second = aList([['10-2', '09:40', '10:42']], { supersedes: { id: first.id, reason: '10-1 is torn' } })
  await settle(second, { by: 'engineer' }).expect(201)
  expect((await read()).settled).toMatchObject({
    id: second.id,
    reason: '10-1 is torn',
    by: { name: 'Person engineer' },
  })
  const kept = await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, async ({ prisma }) => [
    await prisma.putInList.count({ where: { designId } }),
    await prisma.putInListRow.count({ where: { listId: first.id } }),
    await prisma.ledgerEntry.count({ where: { action: 'put-in:settle', subjectId: second.id } }),
  ])
  expect(kept).toEqual([2, 1, 1])
  const { body } = await settle(aList([['10-3', '09:40', '10:42']], { supersedes: { id: first.id } })).expect(409)
  expect([body.detail, body.stored.id]).toEqual([
    'Person engineer settled another list meanwhile. Look at it, then settle this one in its place.',
    second.id,
  ])
})

test('two people settling at once through two servers: one list stands, the other person is told of it', async () => {
  const other = await testApp.startAnother()
  try {
    for (const supersedes of [false, true]) {
      const before = supersedes ? { supersedes: { id: (await read()).settled!.id } } : {}
      const answers = await Promise.all([
        settle(aList([['10-1', '09:30', '10:32']], before)),
        settle(aList([['10-1', '09:40', '10:42']], before), { by: 'engineer', url: other.url }),
      ])
      expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409])
      const told = answers.find(({ status }) => status === 409)!
      expect(told.body.stored.id).toBe((await read()).settled!.id)
    }
  } finally {
    await other.close()
  }
})

test('two lists of two designs for one machine at once: their runs do not meet', async () => {
  const machine = await makeInstrument(testApp, lab)
  const second = await aDesign()
  const other = await testApp.startAnother()
  try {
    const mine = aList([['10-1', '09:30', '10:32']], { instrumentId: machine.id })
    const theirs = {
      ...aList([], { instrumentId: machine.id, designId: second.designId }),
      rows: [{ testId: idOf('10-1', second.discs), putInAt: at('09:40'), startAt: at('10:40') }],
    }
    const answers = await Promise.all([settle(mine), settle(theirs, { by: 'engineer', url: other.url })])
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 400])
    expect(answers.find(({ status }) => status === 400)!.body.errors[0].message).toMatch(
      /^10-1 at 10:(32|40) meets the run of 10-1 of .+, settled for 10:(32|40)\.$/,
    )
    // On another machine they do not stand in each other's way.
    const another = await makeInstrument(testApp, lab, { code: 'WTA-2' })
    const refused = answers[0]!.status === 400 ? mine : theirs
    await settle({ ...refused, id: newId(), instrumentId: another.id }).expect(201)
  } finally {
    await other.close()
  }
})

test('the same without any machine on record, where a list names none', async () => {
  const second = await aDesign()
  const other = await testApp.startAnother()
  try {
    const theirs = {
      ...aList([], { designId: second.designId }),
      rows: [{ testId: idOf('10-1', second.discs), putInAt: at('09:40'), startAt: at('10:40') }],
    }
    const answers = await Promise.all([
      settle(aList([['10-1', '09:30', '10:32']])),
      settle(theirs, { by: 'engineer', url: other.url }),
    ])
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 400])
  } finally {
    await other.close()
  }
})

test('what falls out of its window, into a break or onto another run is refused beside its row', async () => {
  await setBreaks([{ from: '12:00', to: '12:30' }])
  expect((await read()).breaks).toEqual([{ from: '12:00', to: '12:30' }])
  expect(await refusals(aList([['10-1', '09:30', '10:29']]))).toEqual([
    'rows.0.startAt: 10-1 may start at 10:30, not at 10:29.',
  ])
  expect(
    await refusals(
      aList([
        ['10-1', '09:30', '10:46'],
        ['10-2', '10:50', '11:50'],
        ['10-3', '12:10', '13:10'],
      ]),
    ),
  ).toEqual([
    'rows.0.startAt: 10-1 must start by 10:45, not at 10:46.',
    'rows.1.startAt: The run of 10-2 at 11:50 would go into a break.',
    'rows.2.putInAt: 10-3 would be put in at 12:10, in a break.',
  ])
  expect(
    await refusals(
      aList([
        ['10-1', '09:30', '10:32'],
        ['10-2', '09:40', '10:45'],
      ]),
    ),
  ).toEqual(['rows.1.startAt: 10-2 at 10:45 meets the run at 10:32.'])
  expect(await refusals(aList([['10-1', null, '10:32']]))).toHaveLength(1)
  expect(
    await refusals(
      aList([
        ['10-1', '09:30', '10:32'],
        ['10-1', '09:50', '10:52'],
      ]),
    ),
  ).toHaveLength(1)
  const oven = await makeInstrument(testApp, lab, { code: 'OV-9', kind: 'oven', name: 'Oven' })
  expect(await refusals(aList([['10-1', '09:30', '10:32']], { instrumentId: oven.id }))).toEqual([
    'instrumentId: This machine is not in service here: choose another.',
  ])
  expect((await read()).settled).toBeNull()
})

const batch = { aggregate: '800.0', filler: '8.0', water: '80.0', additive: '1.6', emulsion: '80.0' }
async function soak(label: string, of = discs) {
  const ids = [idOf(label, of)]
  await weighBatch(testApp, lab, of.get(label)!.batchTestId, batch)
  await confirm(testApp, lab, ids, 'cast', 'start')
  await confirm(testApp, lab, ids, 'cure', 'start')
  testApp.clock.advance({ hours: 20 })
  await confirm(testApp, lab, ids, 'cure', 'end')
  await confirm(testApp, lab, ids, 'cool', 'end')
  await testApp.services.bench.readings.post(
    lab.people.technician.actor,
    ids[0]!,
    aReading(testApp, 'weigh-before', 'mass', '760.0'),
  )
  await confirm(testApp, lab, ids, 'soak', 'start')
}

test('what soaks for the same machine in another design is told with its window and its settled start, then its run', async () => {
  const second = await aDesign()
  await soak('10-1', second.discs)
  const putIn = testApp.clock.now().getTime()
  const after = (minutes: number) => new Date(putIn + minutes * 60_000).toISOString()
  const machine = await makeInstrument(testApp, lab)
  expect((await read()).elsewhere).toEqual([
    {
      ...{ testId: idOf('10-1', second.discs), code: second.discs.get('10-1')!.code, label: '10-1' },
      ...{ designName: 'Micro-surfacing, Type II', methodName: expect.any(String) as string },
      ...{ mayStartAt: after(60), mustStartAt: after(75), settledStartAt: null, instrumentId: null },
    },
  ])
  const list = {
    ...aList([], { designId: second.designId, instrumentId: machine.id }),
    rows: [{ testId: idOf('10-1', second.discs), putInAt: null, startAt: after(65) }],
  }
  await settle(list).expect(201)
  expect((await read()).elsewhere).toMatchObject([{ settledStartAt: after(65), instrumentId: machine.id }])
  expect((await read(second.designId)).elsewhere).toEqual([])
  testApp.clock.advance({ minutes: 65 })
  await confirm(testApp, lab, [idOf('10-1', second.discs)], 'abrade', 'start', machine.id)
  const { elsewhere, running } = await read()
  expect([elsewhere, running]).toEqual([[], [{ startedAt: after(65), instrumentId: machine.id }]])
})

test('an auditor and a client settle nothing; another laboratory’s design and a method without a soak are refused', async () => {
  const body = aList([['10-1', '09:30', '10:32']])
  for (const by of ['auditor', 'client'] as const) await settle(body, { by }).expect(403)
  await settle({ ...body, methodKey: 'loaded-wheel-sand-adhesion' }).expect(400)
  const elsewhere = await makeLaboratory(testApp)
  await elsewhere.as('technician').post(elsewhere.path('/bench/put-in-lists')).send(body).expect(404)
})
