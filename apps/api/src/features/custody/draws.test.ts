import type { TestView } from '@curebook/contract/bench'
import type { Item, Stock } from '@curebook/contract/custody'
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { connect } from '../../../../../tests/support/as-login.ts'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aSeries, makeMaterial, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
let sampleId: string
let batches: string[]
let bags: string[]

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:40:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
  sampleId = (await makeMaterial(testApp, lab, 'aggregate', { receipt: { containers: ['25 kg'] } })).id
  const { specimens } = await makePlannedDesign(testApp, lab, aSeries({ contents: ['11', '12', '13'] }), {
    changes: { aggregateId: sampleId },
  })
  batches = specimens.map(({ batchTestId }) => batchTestId)
  bags = [newId(), newId()]
  await act(sampleId, {
    kind: 'split',
    pieces: bags.map((id) => ({ id, kind: 'bag', mass: '800' })),
    fraction: 'passing 4.75 mm',
  })
})
afterAll(() => testApp.close())

const time = () => {
  const at = testApp.clock.now().toISOString()
  return { eventAt: at, eventFrom: 'now', sentAt: at }
}
const get = async (path: string, role: 'auditor' | 'technician' = 'auditor') =>
  (await lab.as(role).get(lab.path(path)).expect(200)).body
const item = (id: string): Promise<Item> => get(`/items/${id}`)
const stock = async (): Promise<Stock> => (await get('/stock')).items.find(({ id }: Stock) => id === sampleId)
const view = (testId: string): Promise<TestView> => get(`/tests/${testId}`, 'technician')
const sourcesOf = async (testId: string) =>
  (await view(testId)).sources.find(({ component }) => component === 'aggregate')!
const act = async (itemId: string, body: object, base?: string) =>
  lab
    .as('technician', base)
    .post(lab.path(`/items/${itemId}/custody`))
    .send({ id: newId(), after: (await item(itemId)).custody.lastEventId, time: time(), ...body })
    .expect(201)
const post = (testId: string, typed: string, drawnFromId?: string, base?: string) =>
  lab
    .as('technician', base)
    .post(lab.path(`/tests/${testId}/readings`))
    .send({ id: newId(), stepKey: 'weigh-components', key: 'aggregate', repeat: 1, typed, time: time(), drawnFromId })
const weigh = async (testId: string, typed: string, drawnFromId?: string) =>
  (await post(testId, typed, drawnFromId).expect(201)).body
const correct = (readingId: string, typed: string, drawnFromId?: string | null, reason = 'misread') =>
  lab
    .as('technician')
    .post(lab.path(`/readings/${readingId}/corrections`))
    .send({ id: newId(), typed, reason, time: time(), drawnFromId })
    .expect(201)
const takeBack = (readingId: string, base?: string) =>
  lab
    .as('technician', base)
    .post(lab.path(`/readings/${readingId}/withdrawal`))
    .send({ id: newId(), time: time() })

test('a batch that names its bag draws that bag down, which says so by the batch’s code', async () => {
  const { reading } = await weigh(batches[0]!, '500.5', bags[1])
  expect(reading.drawnFrom).toEqual({ id: bags[1], code: expect.any(String) })
  const code = (await view(batches[0]!)).item.code
  const bag = await item(bags[1]!)
  expect(bag.custody).toMatchObject({ massG: '299.5', overG: null })
  expect(bag.draws).toMatchObject([{ batchCode: code, massG: '500.5', component: 'aggregate', from: { id: bags[1] } }])
  expect((await item(bags[0]!)).custody.massG).toBe('800')
  const sample = await item(sampleId)
  expect(sample.custody.massG).toBe('23400')
  expect(sample.pieces.map(({ id, leftG }) => [id, leftG])).toEqual(
    expect.arrayContaining([
      [bags[0], '800'],
      [bags[1], '299.5'],
    ]),
  )
  expect(await stock()).toMatchObject({
    drawnG: '500.5',
    leftG: '24499.5',
    bags: [{ made: 2, unused: 1 }],
    opened: [{ id: bags[1], massG: '800', leftG: '299.5', overG: null, draws: [{ batchCode: code, massG: '500.5' }] }],
  })
  const batch = await item((await view(batches[0]!)).item.id)
  expect(batch.madeOf).toEqual(expect.arrayContaining([expect.objectContaining({ id: bags[1], massG: '500.5' })]))
})

test('the bag in use is offered first until it is used up', async () => {
  expect(await sourcesOf(batches[0]!)).toMatchObject({ inUseId: null })
  await weigh(batches[0]!, '500', bags[0])
  const { inUseId, items } = await sourcesOf(batches[1]!)
  expect(inUseId).toBe(bags[0])
  expect(items.map(({ id, leftG, here }) => ({ id, leftG, here }))).toEqual(
    expect.arrayContaining([
      { id: sampleId, leftG: '23400', here: true },
      { id: bags[0], leftG: '300', here: true },
      { id: bags[1], leftG: '800', here: true },
    ]),
  )
  await weigh(batches[1]!, '300', bags[0])
  const after = await sourcesOf(batches[2]!)
  expect(after.inUseId).toBeNull()
  expect(after.items.find(({ id }) => id === bags[0])).toMatchObject({ leftG: '0', overG: null })
})

test('more weighed than the bag holds by the record is kept, and said plainly', async () => {
  const posted = await weigh(batches[0]!, '812.4', bags[0])
  expect(posted.reading.value).toBe('812.4')
  expect(posted.suspicions).toMatchObject([
    {
      kind: 'overdrawn',
      sentence: expect.stringMatching(/held 800 g by the record, and 812\.4 g were weighed out of it: 12\.4 g more/),
    },
  ])
  expect((await view(batches[0]!)).suspicions).toHaveLength(1)
  expect((await item(bags[0]!)).custody).toMatchObject({ massG: '0', overG: '12.4' })
})

test('a correction names another bag: the first has its mass again', async () => {
  const { reading } = await weigh(batches[0]!, '500', bags[0])
  await correct(reading.id, '510', bags[1])
  expect((await item(bags[0]!)).custody.massG).toBe('800')
  expect((await item(bags[1]!)).custody.massG).toBe('290')
  const [second] = (await item(bags[1]!)).draws
  expect(second).toMatchObject({ massG: '510' })
  expect((await item(bags[0]!)).draws).toEqual([])
  const standing = (await view(batches[0]!)).readings.find(({ superseded }) => !superseded)!
  await correct(standing.id, '515')
  expect((await item(bags[1]!)).custody.massG).toBe('285')
})

test('what is no bag of the sample is refused in a sentence; a component without a bag is as before', async () => {
  const other = await makeMaterial(testApp, lab, 'aggregate', { receipt: { containers: ['25 kg'] } })
  const { body } = await post(batches[0]!, '800', other.id).expect(400)
  expect(body.errors[0]).toMatchObject({ path: 'drawnFromId', message: expect.stringContaining(`choose a bag of`) })
  await post(batches[0]!, '800', newId()).expect(400)
  await weigh(batches[0]!, '800')
  expect((await item(sampleId)).draws).toMatchObject([{ from: null, massG: '800' }])
  expect((await item(sampleId)).custody.massG).toBe('23400')
})

test('a weighing out of a bag that was gone by then is kept, and waits', async () => {
  await act(bags[0]!, { kind: 'disposed', note: 'Torn' })
  testApp.clock.advance({ minutes: 5 })
  const posted = await weigh(batches[0]!, '400', bags[0])
  expect(posted.reading.waits).toBe(true)
  expect(posted.waits[0].text).toContain('disposed of')
})

test('a bag that batches used and that is then disposed of is taken off once', async () => {
  await weigh(batches[0]!, '800')
  await act(bags[0]!, { kind: 'disposed', note: 'Empty' })
  expect(await stock()).toMatchObject({ drawnG: '800', goneG: '0', leftG: '24200', overdrawn: false })
  await weigh(batches[1]!, '300', bags[1])
  await act(bags[1]!, { kind: 'disposed', note: 'Wet' })
  expect(await stock()).toMatchObject({ drawnG: '1100', goneG: '500', leftG: '23400' })
})

test('a weighing and a split at once: what is left knows of both, whichever was first', async () => {
  const other = await testApp.startAnother()
  try {
    let left = 23_400
    for (const [round, batch] of [...batches, ...batches].entries()) {
      const second = round >= batches.length
      const body = { kind: 'split', pieces: [{ id: newId(), kind: 'split', mass: '100' }] }
      const standing = (await view(batch)).readings.find(({ superseded }) => !superseded)
      await Promise.all([
        second ? correct(standing!.id, '230', sampleId) : post(batch, '200', sampleId, other.url).expect(201),
        act(sampleId, body, testApp.url),
      ])
      left -= 100 + (second ? 30 : 200)
      expect((await item(sampleId)).custody.massG).toBe(String(left))
    }
  } finally {
    await other.close()
  }
})

test('a weighing that was written before a split and stored after it is taken off what the split left', async () => {
  const owner = await connect(testApp.ownerUrl)
  try {
    // Holds the weighing between its reading and the end of its transaction.
    await owner.query('begin; lock table slot_now in share mode')
    const weighing = post(batches[0]!, '200', sampleId).expect(201).then()
    await vi.waitFor(async () => {
      const { rows } = await owner.query(`select from pg_locks where relation = 'slot_now'::regclass and not granted`)
      expect(rows).toHaveLength(1)
    })
    await act(sampleId, { kind: 'split', pieces: [{ id: newId(), kind: 'split', mass: '100' }] })
    await owner.query('commit')
    await weighing
  } finally {
    await owner.end()
  }
  expect((await item(sampleId)).custody.massG).toBe('23100')
  expect(await stock()).toMatchObject({ drawnG: '200', leftG: '24800' })
})

test('a weighing that was taken back drew nothing, and the one in its place draws the whole', async () => {
  const { reading } = await weigh(batches[0]!, '5000', bags[1])
  await lab
    .as('technician')
    .post(lab.path(`/readings/${reading.id}/withdrawal`))
    .send({ id: newId(), time: time() })
    .expect(201)
  const back = await item(bags[1]!)
  expect(back.custody).toMatchObject({ massG: '800', overG: null })
  expect(back.draws).toEqual([])
  await weigh(batches[0]!, '500', bags[1])
  expect((await item(bags[1]!)).custody).toMatchObject({ massG: '300', overG: null })
})

test('one in the place of a weighing that was taken back inherits no bag; a correction can say that it was none', async () => {
  const { reading } = await weigh(batches[0]!, '500', bags[1])
  await takeBack(reading.id).expect(201)
  expect((await weigh(batches[0]!, '500')).reading.drawnFrom).toBeNull()
  expect((await item(bags[1]!)).custody.massG).toBe('800')
  const named = await weigh(batches[1]!, '300', bags[0])
  const { body } = await correct(named.reading.id, '300', null)
  expect(body.reading.drawnFrom).toBeNull()
  expect((await item(bags[0]!)).custody.massG).toBe('800')
})

test('a weighing without a bag that is corrected to name it leaves the sample as it was', async () => {
  const { reading } = await weigh(batches[0]!, '800')
  await correct(reading.id, '800', bags[0])
  expect((await item(sampleId)).custody.massG).toBe('23400')
  await weigh(batches[1]!, '1000', sampleId)
  expect((await item(sampleId)).custody.massG).toBe('22400')
})

test('weighed again out of the bag before, which was disposed of since, waits though nobody names the bag again', async () => {
  const { reading } = await weigh(batches[0]!, '400', bags[0])
  await act(bags[0]!, { kind: 'disposed', note: 'Torn' })
  testApp.clock.advance({ minutes: 5 })
  const { body } = await correct(reading.id, '410', undefined, 'Weighed again')
  expect(body.reading.waits).toBe(true)
  expect(body.waits[0].text).toContain('disposed of')
})

test('a weighing that a split knows of is corrected, not taken back', async () => {
  const { reading } = await weigh(batches[0]!, '200', sampleId)
  await act(sampleId, { kind: 'split', pieces: [{ id: newId(), kind: 'split', mass: '100' }] })
  const { body } = await takeBack(reading.id).expect(422)
  expect(body.detail).toContain('Correct it instead')
})

test('taken back and split at once: the sample has what is there, whichever was first', async () => {
  const other = await testApp.startAnother()
  try {
    let left = 23_400
    for (const batch of batches) {
      const { reading } = await weigh(batch, '200', sampleId)
      const [back] = await Promise.all([
        takeBack(reading.id, other.url),
        act(sampleId, { kind: 'split', pieces: [{ id: newId(), kind: 'split', mass: '100' }] }, testApp.url),
      ])
      expect([201, 422]).toContain(back.status)
      left -= 100 + (back.status === 201 ? 0 : 200)
      expect((await item(sampleId)).custody.massG).toBe(String(left))
    }
  } finally {
    await other.close()
  }
})
