import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { makeFactor, makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const factor = (more: object = {}) => ({
  id: newId(),
  key: 'area',
  typed: '32.9',
  unit: 'g/m²',
  measuredAreaCm2: '303.8',
  edition: 'ISSA TB-100, from memory, unverified',
  effectiveFrom: '2026-01-01',
  ...more,
})
const post = (id: string, body: object, url?: string) =>
  lab
    .as('manager', url)
    .post(lab.path(`/instruments/${id}/factors`))
    .send(body)
const read = async (id: string) =>
  (
    await lab
      .as('technician')
      .get(lab.path(`/instruments/${id}`))
      .expect(200)
  ).body

test('an instrument is entered once, under a code of its own', async () => {
  const body = {
    id: newId(),
    code: 'BAL-1',
    kind: 'balance',
    name: 'Balance for discs and batches',
    serial: '',
    place: 'Bench 1',
    capacity: '6000',
    capacityUnit: 'g',
    resolution: '0.1',
  }
  const { body: made } = await lab.as('manager').post(lab.path('/instruments')).send(body).expect(201)
  expect(made).toMatchObject({ ...body, state: 'in-service', version: 1, factors: [], calibrations: [] })
  const { body: problem } = await lab
    .as('manager')
    .post(lab.path('/instruments'))
    .send({ ...body, id: newId() })
    .expect(409)
  expect(problem.errors[0].path).toBe('code')
})

test('entered at once through two servers under one code, or twice by one press, stands once', async () => {
  const other = await testApp.startAnother()
  try {
    const balance = { id: newId(), code: 'BAL-1', kind: 'balance', name: 'Balance', serial: '', place: '' }
    const body = { ...balance, capacity: null, capacityUnit: null, resolution: null }
    const create = (sent: object, url?: string) => async () =>
      lab.as('manager', url).post(lab.path('/instruments')).send(sent)
    const held = { sql: 'select from laboratory where id = $1 for update', values: [lab.labId] }
    const twice = await atOnce(testApp.ownerUrl, held, create(body), create(body, other.url))
    expect(twice).toMatchObject([{ value: { status: 201 } }, { value: { status: 200 } }])
    const oven = { ...body, code: 'OV-1', kind: 'oven' }
    const [one, another] = [create({ ...oven, id: newId() }), create({ ...oven, id: newId() }, other.url)]
    const errors = [{ path: 'code', message: expect.stringContaining('OV-1 is taken') }]
    expect(await atOnce(testApp.ownerUrl, held, one, another)).toMatchObject([
      { value: { status: 201 } },
      { value: { status: 409, body: { errors } } },
    ])
    const { body: listed } = await lab.as('auditor').get(lab.path('/instruments')).expect(200)
    expect(listed.items.map(({ code }: { code: string }) => code)).toEqual(['BAL-1', 'OV-1'])
  } finally {
    await other.close()
  }
})

test('an edit starts from the version that was read', async () => {
  const { id } = await makeInstrument(testApp, lab)
  const edit = (version: string) =>
    lab
      .as('manager')
      .patch(lab.path(`/instruments/${id}`))
      .set('if-match', version)
  const moved = { state: 'out', place: 'Store', reason: 'Waits for its certificate' }
  expect((await edit('"1"').send(moved).expect(200)).body).toMatchObject({
    state: 'out',
    place: 'Store',
    version: 2,
  })
  await edit('"1"').send({ place: 'Bench' }).expect(412)
})

test('what an instrument is changes with a reason; who, when, why and what stood before are kept', async () => {
  const { id } = await makeInstrument(testApp, lab, {
    kind: 'balance',
    serial: 'A-17',
    capacity: '6000',
    capacityUnit: 'g',
    resolution: '0.1',
  })
  const edit = (body: object) =>
    lab
      .as('manager')
      .patch(lab.path(`/instruments/${id}`))
      .set('if-match', '"1"')
      .send(body)
  const refused = async (body: object) => (await edit(body).expect(400)).body.errors[0].path
  const reason = 'The label was read again'
  expect(await refused({ serial: 'A-11' })).toBe('reason')
  expect(await refused({ name: ' ', reason })).toBe('name')
  expect(await refused({ capacity: '0', reason })).toBe('capacity')
  expect(await refused({ capacity: 'much', reason })).toBe('capacity')
  expect(await refused({ resolution: '-0.1', reason })).toBe('resolution')
  expect(await refused({ capacity: '0.05', reason })).toBe('resolution')

  testApp.clock.advance({ minutes: 5 })
  const changed = await edit({ serial: 'A-11', capacity: '8000', reason }).expect(200)
  expect(changed.body).toMatchObject({ serial: 'A-11', capacity: '8000', resolution: '0.1', version: 2 })
  const [entry] = await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, ({ prisma }) =>
    prisma.ledgerEntry.findMany({ where: { subjectId: id, action: 'instrument:update' } }),
  )
  expect(entry).toMatchObject({ actorId: lab.people.manager.actor.membershipId, at: testApp.clock.now() })
  expect(JSON.parse(entry!.content).content).toMatchObject({
    before: { serial: 'A-17', capacity: '6000' },
    after: { serial: 'A-11', capacity: '8000' },
    reason,
  })
  await lab
    .as('technician')
    .patch(lab.path(`/instruments/${id}`))
    .set('if-match', '"2"')
    .send({ serial: 'A-12', reason })
    .expect(403)
})

test('a machine holds one factor for each unit, as published', async () => {
  const { id } = await makeInstrument(testApp, lab)
  await post(id, factor({ typed: '32,9 g/m²' })).expect(201)
  await post(id, factor({ typed: '3.06', unit: 'g/ft²' })).expect(201)
  const factors = (await read(id)).factors.map(
    ({ typed, value, unit, current, warnings }: Record<string, unknown>) => ({ typed, value, unit, current, warnings }),
  )
  expect(factors).toHaveLength(2)
  expect(factors).toContainEqual({ typed: '32,9 g/m²', value: '32.9', unit: 'g/m²', current: true, warnings: [] })
  expect(factors).toContainEqual({ typed: '3.06', value: '3.06', unit: 'g/ft²', current: true, warnings: [] })
})

test('a factor off its measured area is kept and asked about', async () => {
  const { id } = await makeInstrument(testApp, lab)
  const { body } = await post(id, factor({ measuredAreaCm2: '330' })).expect(201)
  expect(body.warnings).toEqual([expect.stringContaining('330 cm²')])
})

test('a second factor of a unit names the one that it replaces, with the reason; both stay on record', async () => {
  const { id } = await makeInstrument(testApp, lab)
  const first = await makeFactor(testApp, lab, id)
  const { body: problem } = await post(id, factor({ typed: '33.1' })).expect(409)
  expect(problem.stored.id).toBe(first.id)
  await post(id, factor({ typed: '33.1', supersedes: { id: first.id, reason: '' } })).expect(400)
  await post(
    id,
    factor({ typed: '33.1', effectiveFrom: '2026-03-01', supersedes: { id: first.id, reason: 'Head rebuilt' } }),
  ).expect(201)
  const { factors } = await read(id)
  expect(
    factors.map(({ typed, current, reason }: Record<string, unknown>) => [typed, current, reason]).toSorted(),
  ).toEqual([
    ['32.9', false, null],
    ['33.1', true, 'Head rebuilt'],
  ])
})

test('two people entering or replacing a factor at once through two servers: one stands', async () => {
  const other = await testApp.startAnother()
  try {
    const { id } = await makeInstrument(testApp, lab)
    const firsts = await Promise.all([post(id, factor()), post(id, factor({ typed: '33' }), other.url)])
    expect(firsts.map(({ status }) => status).toSorted()).toEqual([201, 409])
    const [current] = (await read(id)).factors
    const supersedes = { id: current.id, reason: 'Measured again' }
    const seconds = await Promise.all([
      post(id, factor({ typed: '33.2', supersedes })),
      post(id, factor({ typed: '33.3', supersedes }), other.url),
    ])
    expect(seconds.map(({ status }) => status).toSorted()).toEqual([201, 409])
    expect((await read(id)).factors.filter((one: { current: boolean }) => one.current)).toHaveLength(1)
  } finally {
    await other.close()
  }
})

test('what cannot stand is refused beside its field', async () => {
  const machine = await makeInstrument(testApp, lab)
  const balance = await makeInstrument(testApp, lab, { code: 'BAL-1', kind: 'balance' })
  const paths = async (id: string, more: object) =>
    (await post(id, factor(more)).expect(400)).body.errors.map(({ path }: { path: string }) => path)
  expect(await paths(machine.id, { key: 'frame' })).toEqual(['key'])
  expect(await paths(balance.id, {})).toEqual(['key'])
  expect(await paths(machine.id, { typed: '0' })).toEqual(['typed'])
  expect(await paths(machine.id, { typed: '3.06 g/ft²' })).toEqual(['typed'])
  expect(await paths(machine.id, { measuredAreaCm2: '0' })).toEqual(['measuredAreaCm2'])
  expect(await paths(machine.id, { effectiveFrom: '2026-03-03' })).toEqual(['effectiveFrom'])
})

test('a calibration says until when an instrument may be used', async () => {
  const { id } = await makeInstrument(testApp, lab)
  const calibrate = (more: object) =>
    lab
      .as('manager')
      .post(lab.path(`/instruments/${id}/calibrations`))
      .send({
        id: newId(),
        doneOn: '2026-02-01',
        validUntil: '2027-02-01',
        certificate: 'C-881',
        passed: true,
        ...more,
      })
  await calibrate({ doneOn: '2025-03-20', validUntil: '2026-03-20' }).expect(201)
  expect((await read(id)).state).toBe('due')
  await calibrate({}).expect(201)
  expect(await read(id)).toMatchObject({
    state: 'in-service',
    calibrations: [{ doneOn: '2026-02-01' }, { doneOn: '2025-03-20' }],
  })
  await calibrate({ validUntil: '2026-01-01' }).expect(400)
})

test('two calibrations entered at once both stand, and the later one counts; one sent twice at once is one', async () => {
  const other = await testApp.startAnother()
  try {
    const { id } = await makeInstrument(testApp, lab)
    const calibrate = (body: object, url?: string) => async () =>
      lab
        .as('manager', url)
        .post(lab.path(`/instruments/${id}/calibrations`))
        .send({ id: newId(), certificate: 'C-881', passed: true, ...body })
    const older = { doneOn: '2025-02-01', validUntil: '2026-02-01' }
    const newer = { doneOn: '2026-02-01', validUntil: '2027-02-01' }
    const held = { sql: 'select from instrument where id = $1 for update', values: [id] }
    expect(await atOnce(testApp.ownerUrl, held, calibrate(newer), calibrate(older, other.url))).toMatchObject([
      { value: { status: 201 } },
      { value: { status: 201 } },
    ])
    expect(await read(id)).toMatchObject({
      state: 'in-service',
      calibrations: [{ doneOn: '2026-02-01' }, { doneOn: '2025-02-01' }],
    })
    const once = { id: newId(), ...newer }
    // Both wait at the same row without excluding one another: either may be first.
    const twice = await atOnce(testApp.ownerUrl, held, calibrate(once), calibrate(once, other.url))
    const statuses = twice.map((outcome) => (outcome.status === 'fulfilled' ? outcome.value.status : 0))
    expect(statuses.toSorted()).toEqual([200, 201])
    expect((await read(id)).calibrations).toHaveLength(3)
  } finally {
    await other.close()
  }
})

test('a technician changes no instrument; one of another laboratory is not found', async () => {
  const { id } = await makeInstrument(testApp, lab)
  await lab
    .as('technician')
    .post(lab.path(`/instruments/${id}/factors`))
    .send(factor())
    .expect(403)
  const elsewhere = await makeLaboratory(testApp)
  const theirs = await makeInstrument(testApp, elsewhere)
  await lab
    .as('manager')
    .get(lab.path(`/instruments/${theirs.id}`))
    .expect(404)
  await post(theirs.id, factor()).expect(404)
})
