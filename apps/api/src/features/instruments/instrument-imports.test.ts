import type { Instrument } from '@curebook/contract/instruments'
import type { InstrumentImport } from '@curebook/contract/instrument-imports'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  testApp.clock.set('2026-03-02T08:00:00Z')
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const content =
  'code;kind;name;calibrated on;due;certificate;factor;factor unit;edition;factor from\n' +
  'WTA-1;wet-track-machine;Wet track machine;2026-01-05;2027-01-05;C-1;32,9;g/m²;From memory;2026-01-01\n' +
  'OV-1;oven;Oven, 60 °C;;;;;;;\n'
const path = (rest = '') => lab.path(`/instrument-imports${rest}`)
const bringIn = (body: object = {}, { by = 'manager', url }: { by?: PersonKey; url?: string } = {}) =>
  lab
    .as(by, url)
    .post(path())
    .send({ id: newId(), fileName: 'instruments.csv', content, ...body })
const takeBack = (id: string, body: object = {}, url?: string) =>
  lab
    .as('manager', url)
    .post(path(`/${id}/withdrawal`))
    .send({ id: newId(), reason: 'Wrong file', ...body })
const instruments = async (): Promise<Instrument[]> =>
  (await lab.as('technician').get(lab.path('/instruments')).expect(200)).body.items
const imports = async (): Promise<InstrumentImport[]> => (await lab.as('auditor').get(path()).expect(200)).body.items
const codes = async () => (await instruments()).map(({ code }) => code)
const inLab = <T>(work: Parameters<typeof testApp.services.laboratory.inLaboratory<T>>[1]) =>
  testApp.services.laboratory.inLaboratory(lab.people.manager.actor, work)

test('a preview says what would come in and where it is wrong, and stores nothing', async () => {
  await makeInstrument(testApp, lab, { code: 'OV-1', kind: 'oven', name: 'Oven' })
  const { body } = await lab.as('manager').post(path('/preview')).send({ content }).expect(200)
  expect(
    body.rows.map(({ line, instrument }: { line: number; instrument: Instrument }) => [line, instrument.code]),
  ).toEqual([[2, 'WTA-1']])
  expect(body.faults).toEqual([
    { line: 3, column: 'code', message: 'The code OV-1 is taken: give the one on this instrument’s label.' },
  ])
  const refused = await bringIn().expect(400)
  expect(refused.body.errors[0].message).toMatch(/^Line 3, code: The code OV-1 is taken/)
  expect([await codes(), await imports()]).toEqual([['OV-1'], []])
})

test('all of a file comes in at once, with calibration and factor; sent again it is the same import', async () => {
  const id = newId()
  const { body } = await bringIn({ id }).expect(201)
  expect(body).toMatchObject({ id, fileName: 'instruments.csv', by: { name: 'Person manager' }, takenBack: null })
  expect((await bringIn({ id }).expect(200)).body).toEqual(body)
  await bringIn({ id, content: content.replace('OV-1', 'OV-2') }).expect(409)
  const [oven, machine] = await instruments()
  expect(oven).toMatchObject({ code: 'OV-1', kind: 'oven', state: 'in-service', calibrations: [], factors: [] })
  expect(machine).toMatchObject({
    code: 'WTA-1',
    calibrations: [{ doneOn: '2026-01-05', validUntil: '2027-01-05', certificate: 'C-1', passed: true }],
    factors: [{ key: 'area', typed: '32,9', value: '32.9', unit: 'g/m²', current: true }],
  })
  const kept = await inLab(async ({ prisma }) => ({
    file: await prisma.instrumentImport.findFirst({ where: { id }, select: { content: true } }),
    entries: await prisma.ledgerEntry.count({ where: { action: { in: ['instrument:import', 'instrument:create'] } } }),
  }))
  expect(kept).toEqual({ file: { content }, entries: 3 })
})

test('an import is taken back as a whole, with by whom, when and why; its codes are free for the file put right', async () => {
  const { body: first } = await bringIn().expect(201)
  testApp.clock.set('2026-03-02T09:00:00Z')
  const id = newId()
  await takeBack(first.id, { id }).expect(201)
  await takeBack(first.id, { id }).expect(200)
  expect((await takeBack(first.id).expect(409)).body.detail).toBe(
    'Person manager took this import back already: Wrong file.',
  )
  expect(await codes()).toEqual([])
  const told = await inLab(({ prisma }) =>
    prisma.ledgerEntry.findMany({ where: { subjectKind: 'instrument-withdrawal' }, select: { action: true } }),
  )
  expect(told).toEqual([{ action: 'instrument:take-back' }])
  expect((await imports())[0]).toMatchObject({
    id: first.id,
    instruments: [{ code: 'WTA-1' }, { code: 'OV-1' }],
    takenBack: { by: { name: 'Person manager' }, at: '2026-03-02T09:00:00.000Z', reason: 'Wrong file' },
  })
  // What was taken back stays readable, out of service, and nothing is entered for it any more.
  const [{ id: gone }] = first.instruments as [{ id: string }]
  const one = await lab
    .as('technician')
    .get(lab.path(`/instruments/${gone}`))
    .expect(200)
  expect(one.body.state).toBe('out')
  await lab
    .as('manager')
    .patch(lab.path(`/instruments/${gone}`))
    .set('if-match', one.headers.etag!)
    .send({ state: 'in-service' })
    .expect(409)
  await lab
    .as('manager')
    .post(lab.path(`/instruments/${gone}/calibrations`))
    .send({ id: newId(), doneOn: '2026-01-05', validUntil: '2027-01-05', certificate: 'C-2', passed: true })
    .expect(409)
  await bringIn().expect(201)
  expect(await codes()).toEqual(['OV-1', 'WTA-1'])
})

test('an import of which an instrument was used is not taken back: the sentence names it and by what', async () => {
  const { body } = await bringIn().expect(201)
  const [machine, oven] = body.instruments as [{ id: string }, { id: string }]
  const time = { eventAt: '2026-03-02T08:00:00Z', eventFrom: 'now', sentAt: '2026-03-02T08:00:00Z' }
  await lab
    .as('technician')
    .post(lab.path(`/instruments/${machine.id}/parts`))
    .send({ id: newId(), kind: 'hose', lot: 'H-07', time })
    .expect(201)
  expect((await takeBack(body.id).expect(409)).body.detail).toBe(
    'The import cannot be taken back: an instrument of it was used already, WTA-1 by a fitted part. Take out of service what is not wanted.',
  )
  testApp.clock.set('2026-03-02T09:00:00Z')
  await lab
    .as('manager')
    .post(lab.path(`/instruments/${oven.id}/calibrations`))
    .send({ id: newId(), doneOn: '2026-01-05', validUntil: '2027-01-05', certificate: 'C-9', passed: true })
    .expect(201)
  expect((await takeBack(body.id).expect(409)).body.detail).toMatch(
    /instruments of it were used already, WTA-1 by a fitted part, OV-1 by a later calibration\./,
  )
  expect((await codes()).length).toBe(2)
})

test('two people at once through two servers: one import of the same codes stands, and one taking back', async () => {
  const other = await testApp.startAnother()
  try {
    const answers = await Promise.all([bringIn(), bringIn({}, { url: other.url })])
    expect(answers.map(({ status }) => (status === 201 ? 201 : 'refused')).toSorted()).toEqual([201, 'refused'])
    expect(await codes()).toEqual(['OV-1', 'WTA-1'])
    const [{ id }] = (await imports()) as [InstrumentImport]
    const taken = await Promise.all([takeBack(id), takeBack(id, {}, other.url)])
    expect(taken.map(({ status }) => status).toSorted()).toEqual([201, 409])
    expect(await inLab(({ prisma }) => prisma.instrumentWithdrawal.count())).toBe(2)
  } finally {
    await other.close()
  }
})

test('one taking back sent twice at once through two servers happens once, and both are answered alike', async () => {
  const other = await testApp.startAnother()
  try {
    const { body } = await bringIn().expect(201)
    const same = { id: newId() }
    const [first, second] = await atOnce(
      testApp.ownerUrl,
      {
        sql: 'select from instrument where id = any($1::uuid[]) order by id for update',
        values: [body.instruments.map(({ id }: { id: string }) => id)],
      },
      async () => takeBack(body.id, same),
      async () => takeBack(body.id, same, other.url),
    )
    if (first.status !== 'fulfilled' || second.status !== 'fulfilled') throw new Error('Both are answered.')
    expect([first.value.status, second.value.status]).toEqual([201, 200])
    expect(second.value.body).toEqual(first.value.body)
    expect(await inLab(({ prisma }) => prisma.instrumentWithdrawal.count())).toBe(2)
  } finally {
    await other.close()
  }
})

test('only a manager brings instruments in; another laboratory’s import is not found', async () => {
  for (const by of ['technician', 'engineer', 'auditor', 'client'] as const) {
    await bringIn({}, { by }).expect(403)
    await lab.as(by).post(path('/preview')).send({ content }).expect(403)
  }
  await lab.as('client').get(path()).expect(403)
  const { body } = await bringIn().expect(201)
  const elsewhere = await makeLaboratory(testApp)
  await elsewhere
    .as('manager')
    .post(elsewhere.path(`/instrument-imports/${body.id}/withdrawal`))
    .send({ id: newId(), reason: 'Wrong file' })
    .expect(404)
  await elsewhere
    .as('manager')
    .post(elsewhere.path('/instrument-imports'))
    .send({ id: newId(), fileName: 'x.csv', content })
    .expect(201)
})
