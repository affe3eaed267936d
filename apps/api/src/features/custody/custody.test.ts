import type { Item, RecordAct } from '@curebook/contract/custody'
import { isCode } from '@curebook/trade/design/specimen-code'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeMaterial, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:40:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const now = () => ({
  eventAt: testApp.clock.now().toISOString(),
  eventFrom: 'now' as const,
  sentAt: testApp.clock.now().toISOString(),
})
const nameOf = (person: PersonKey) => lab.people[person].actor.name
const read = async (id: string, person: PersonKey = 'technician'): Promise<Item> =>
  (
    await lab
      .as(person)
      .get(lab.path(`/items/${id}`))
      .expect(200)
  ).body
/** Without the kind's own fields the types cannot know them: the route judges. */
const post = (itemId: string, act: Record<string, unknown>, person: PersonKey = 'technician', url?: string) =>
  lab
    .as(person, url)
    .post(lab.path(`/items/${itemId}/custody`))
    .send({ id: newId(), time: now(), ...act })
/** An act on what stands now, which must be allowed. */
async function act(itemId: string, act: Partial<RecordAct> & { kind: string }, person: PersonKey = 'technician') {
  const { custody } = await read(itemId)
  return (await post(itemId, { after: custody.lastEventId, ...act }, person).expect(201)).body as Item
}
async function makePlace(name: string, accessControlled = true): Promise<string> {
  const id = newId()
  const body = { id, name, kind: 'store', accessControlled }
  await lab.as('manager').post(lab.path('/places')).send(body).expect(201)
  return id
}

test('a sample’s life: received, put away, taken over by another, offered, refused and disposed of', async () => {
  const { id } = await makeMaterial(testApp, lab, 'emulsion')
  const store = await makePlace('Cool store')
  testApp.clock.advance({ minutes: 1 })
  await act(id, { kind: 'placed', placeId: store, temperature: '24,5', condition: 'good', sealIntact: true })
  await act(id, { kind: 'taken' }, 'technician2')
  await act(id, { kind: 'offered', to: 'Regional laboratory' }, 'technician2')
  await act(id, { kind: 'refused', note: 'They have no room' }, 'technician2')
  const item = await act(id, { kind: 'disposed', note: 'Retention over, manager asked' }, 'technician2')

  expect(item.custody).toMatchObject({ status: 'disposed', custodian: null, allowed: [] })
  expect(item.custody.testBarred).toContain('disposed of')
  expect(item.life.map(({ kind, from, to, by }) => [kind, from?.name, to?.name, by.name])).toEqual([
    ['received', 'Ansel Binders', nameOf('technician'), nameOf('technician')],
    ['placed', nameOf('technician'), 'Cool store', nameOf('technician')],
    ['taken', 'Cool store', nameOf('technician2'), nameOf('technician2')],
    ['offered', nameOf('technician2'), 'Regional laboratory', nameOf('technician2')],
    ['refused', nameOf('technician2'), nameOf('technician2'), nameOf('technician2')],
    ['disposed', nameOf('technician2'), undefined, nameOf('technician2')],
  ])
  expect(item.life[1]).toMatchObject({
    temperature: '24,5',
    temperatureC: '24.5',
    condition: 'good',
    sealIntact: true,
    eventFrom: 'now',
  })
})

test('out of the laboratory it takes two, and it comes back by being received', async () => {
  const { id } = await makeMaterial(testApp, lab, 'filler')
  await act(id, { kind: 'offered', to: 'Regional laboratory' })
  const away = await act(id, { kind: 'accepted', signedFor: 'J. Moor' })
  expect(away.custody).toMatchObject({
    status: 'outside',
    custodian: { kind: 'party', name: 'Regional laboratory' },
    allowed: ['received', 'gap'],
  })
  const { body } = await post(id, { kind: 'taken', after: away.custody.lastEventId }).expect(422)
  expect(body.detail).toBe('It is with Regional laboratory, out of the laboratory’s care: receive it first.')
  const back = await act(id, { kind: 'received', from: 'Regional laboratory', mass: '2.5 kg' })
  expect(back.custody).toMatchObject({ status: 'with', custodian: { name: nameOf('technician') }, massG: '2500' })
  const sent = await act(id, { kind: 'returned', to: 'Marrowdale County', signedFor: 'Note 12' })
  expect(sent.life.at(-1)).toMatchObject({ kind: 'returned', signedFor: 'Note 12', to: { name: 'Marrowdale County' } })
})

test('an act that the rules refuse changes nothing and says what would be right', async () => {
  const { id } = await makeMaterial(testApp, lab, 'water')
  const { custody } = await read(id)
  const yard = await makePlace('Yard', false)
  const open = await post(id, { kind: 'placed', placeId: yard, after: custody.lastEventId }).expect(422)
  expect(open.body).toMatchObject({ reason: 'open-place', detail: expect.stringContaining('Anybody can enter Yard') })
  const other = await post(id, { kind: 'disposed', note: 'Old', after: custody.lastEventId }, 'manager').expect(422)
  expect(other.body.detail).toBe(`${nameOf('technician')} has it: take it over first.`)
  const missing = await post(id, { kind: 'sent', to: 'Somebody', signedFor: '', after: custody.lastEventId }).expect(
    400,
  )
  expect(missing.body.errors[0].path).toBe('signedFor')
  await post(id, { kind: 'placed', placeId: newId(), after: custody.lastEventId }).expect(400)
  const early = { ...now(), eventAt: '2026-03-02T08:00:00Z', eventFrom: 'at', note: 'Forgot' }
  const before = await post(id, { kind: 'disposed', note: 'Old', after: custody.lastEventId, time: early }).expect(400)
  expect(before.body.errors[0]).toMatchObject({
    path: 'time.eventAt',
    message: expect.stringContaining(`${nameOf('technician')} received it`),
  })
  expect(await read(id)).toMatchObject({ life: [{ kind: 'received' }], custody })
})

test('a split makes pieces with codes, masses as typed and a line to what they came from', async () => {
  const { id, code } = await makeMaterial(testApp, lab, 'aggregate')
  const ids = [newId(), newId(), newId()]
  const split = {
    kind: 'split' as const,
    pieces: [
      { id: ids[0]!, kind: 'split' as const, mass: '27.2 kg' },
      { id: ids[1]!, kind: 'bag' as const, mass: '800.0' },
      { id: ids[2]!, kind: 'bag' as const, mass: '800,0' },
    ],
    loss: '12.5',
    fraction: 'passing 4.75 mm',
    scalped: '5.9',
  }
  const { custody } = await read(id)
  const unweighed = await post(id, { ...split, after: custody.lastEventId }).expect(422)
  expect(unweighed.body.reason).toBe('mass-unknown')
  const wrong = await post(id, { ...split, weighed: '74.2 kg', left: '45.0 kg', after: custody.lastEventId }).expect(
    422,
  )
  expect(wrong.body.detail).toContain('387.5 g are missing')

  const item = await act(id, { ...split, weighed: '74.2 kg' })
  expect(item.custody.massG).toBe('45387.5')
  expect(item.pieces).toMatchObject([
    { id: ids[0], kind: 'split', massG: '27200', leftG: '27200', status: 'with', custodian: nameOf('technician') },
    { kind: 'bag', massG: '800', parentId: id, fraction: 'passing 4.75 mm' },
    { kind: 'bag', massG: '800' },
  ])
  expect(new Set(item.pieces.map((piece) => piece.code)).size).toBe(3)
  expect(item.pieces.every((piece) => isCode(piece.code))).toBe(true)

  const bag = await read(ids[1]!)
  expect(bag).toMatchObject({ kind: 'bag', materialKind: 'aggregate', scalped: '5.9', custody: { massG: '800' } })
  expect(bag.madeOf).toEqual([expect.objectContaining({ id, code, kind: 'sample', childId: ids[1], massG: '800' })])
  expect(bag.life).toMatchObject([{ kind: 'split', massTyped: '800.0', to: { name: nameOf('technician') } }])
  const grandchild = newId()
  await act(ids[0]!, { kind: 'split', pieces: [{ id: grandchild, kind: 'bag', mass: '300' }], loss: '0' })
  expect((await read(id)).pieces.find((piece) => piece.id === grandchild)).toMatchObject({ parentId: ids[0] })
})

test('a specimen’s family: the batch it was cast from, and what went into that, with masses once weighed', async () => {
  const { design, specimens } = await makePlannedDesign(testApp, lab)
  const specimen = await read(specimens[0]!.itemId)
  const batch = specimen.madeOf[0]!
  expect(specimen).toMatchObject({
    kind: 'specimen',
    custody: { status: 'not-begun', allowed: ['taken', 'placed'], testBarred: null },
  })
  expect(batch).toMatchObject({ kind: 'batch', code: `${specimen.code}.B`, childId: specimen.id })
  expect(specimen.madeOf.slice(1).map(({ materialKind, massG, childId }) => [materialKind, massG, childId])).toEqual(
    ['additive', 'aggregate', 'emulsion', 'filler', 'water'].map((kind) => [kind, null, batch.id]),
  )
  await lab
    .as('technician')
    .post(lab.path(`/tests/${specimens[0]!.batchTestId}/readings`))
    .send({ id: newId(), stepKey: 'weigh-components', key: 'emulsion', repeat: 1, typed: '96.40', time: now() })
    .expect(201)
  const again = await read(specimen.id)
  expect(again.madeOf.find(({ materialKind }) => materialKind === 'emulsion')!.massG).toBe('96.4')

  const emulsion = await read(design.materials.emulsion.id)
  expect(emulsion).toMatchObject({
    batches: 1,
    specimens: [{ designId: design.id, emulsionPercent: '12', form: 'disc', count: 1, codes: [specimen.code] }],
  })
  expect(specimen.tests).toMatchObject([{ id: specimens[0]!.testId, state: 'waiting' }])
  await act(specimen.id, { kind: 'taken' })
  expect((await read(specimen.id)).custody).toMatchObject({ status: 'with', custodian: { name: nameOf('technician') } })
})

test('a gap is told, opens a deviation, and the item is with who found it', async () => {
  const { id, code } = await makeMaterial(testApp, lab, 'aggregate')
  const item = await act(id, { kind: 'gap', note: 'Stood in the yard from Friday to Monday' }, 'technician2')
  expect(item.custody).toMatchObject({ status: 'with', custodian: { name: nameOf('technician2') } })
  const { items } = await testApp.services.deviations.list(lab.people.manager.actor, { open: true, designId: null })
  expect(items).toMatchObject([{ kind: 'custody', itemCode: code, text: expect.stringContaining('in the yard') }])
})

test('two who take it over at once through two servers: one has it, the other is told', async () => {
  const { id } = await makeMaterial(testApp, lab, 'filler')
  const { custody } = await read(id)
  const other = await testApp.startAnother()
  try {
    const take = { kind: 'taken', after: custody.lastEventId }
    const answers = await Promise.all([
      post(id, take, 'technician2', testApp.url),
      post(id, take, 'engineer', other.url),
    ])
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
    const item = await read(id)
    expect(item.life.map(({ kind }) => kind)).toEqual(['received', 'taken'])
    const winner = answers[0].status === 201 ? 'technician2' : 'engineer'
    expect(item.custody.custodian).toMatchObject({ name: nameOf(winner) })
    expect(answers.find(({ status }) => status === 409)!.body.detail).toContain(nameOf(winner))
  } finally {
    await other.close()
  }
})

test('one disposes of it while another takes it: nothing is done after a disposal', async () => {
  const { id } = await makeMaterial(testApp, lab, 'filler')
  const { custody } = await read(id)
  const other = await testApp.startAnother()
  try {
    const answers = await Promise.all([
      post(id, { kind: 'disposed', note: 'Contaminated', after: custody.lastEventId }, 'technician', testApp.url),
      post(id, { kind: 'taken', after: custody.lastEventId }, 'technician2', other.url),
    ])
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
    const item = await read(id)
    expect(item.life).toHaveLength(2)
    expect(item.custody.status).toBe(item.life[1]!.kind === 'disposed' ? 'disposed' : 'with')
    if (item.custody.status === 'disposed')
      await post(id, { kind: 'taken', after: item.custody.lastEventId }, 'technician2').expect(422)
  } finally {
    await other.close()
  }
})

test('two who first take a specimen at once: it has one first custodian', async () => {
  const { specimens } = await makePlannedDesign(testApp, lab)
  const { itemId } = specimens[0]!
  const answers = await Promise.all([
    post(itemId, { kind: 'taken', after: null }, 'technician'),
    post(itemId, { kind: 'taken', after: null }, 'technician2'),
  ])
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
  expect((await read(itemId)).life).toHaveLength(1)
})

test('sent again at a later sending time is the same act', async () => {
  const { id } = await makeMaterial(testApp, lab, 'emulsion')
  const { custody } = await read(id)
  const sent = { id: newId(), kind: 'taken', after: custody.lastEventId, time: now() }
  await post(id, sent, 'technician2').expect(201)
  testApp.clock.advance({ minutes: 1 })
  const again = { ...sent, time: { ...sent.time, sentAt: now().sentAt } }
  const { body } = await post(id, again, 'technician2').expect(200)
  expect((body as Item).life.map(({ kind }) => kind)).toEqual(['received', 'taken'])
  const { time } = again
  await post(id, { ...again, time: { ...time, eventAt: time.sentAt } }, 'technician2').expect(409)
})

test('the same act again is the same act, done once', async () => {
  const { id } = await makeMaterial(testApp, lab, 'filler')
  const { custody } = await read(id)
  const body = { id: newId(), kind: 'gap', note: 'Door found open', after: custody.lastEventId, time: now() }
  await post(id, body).expect(201)
  await post(id, body).expect(200)
  await post(id, { ...body, note: 'Another word' }).expect(409)
  expect((await read(id)).life).toHaveLength(2)
})

test('who reads only records nothing, and a stranger sees nothing', async () => {
  const { id } = await makeMaterial(testApp, lab, 'filler')
  const { custody } = await read(id, 'auditor')
  await post(id, { kind: 'gap', note: 'Door found open', after: custody.lastEventId }, 'auditor').expect(403)
  const elsewhere = await makeLaboratory(testApp)
  await elsewhere
    .as('manager')
    .get(elsewhere.path(`/items/${id}`))
    .expect(404)
  await elsewhere
    .as('manager')
    .post(elsewhere.path(`/items/${id}/custody`))
    .send({ id: newId(), kind: 'taken', after: null, time: now() })
    .expect(404)
})
