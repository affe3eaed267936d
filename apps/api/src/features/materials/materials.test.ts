import { isCode } from '@curebook/trade/design/specimen-code'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeMaterial } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:40:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const aggregate = () => ({
  id: newId(),
  kind: 'aggregate',
  name: 'Type II aggregate, crushed',
  sourceName: 'Skerry Edge Quarry',
  supplier: '',
  lot: 'B3',
  receivedOn: '2026-03-02',
  note: '3 bags',
})
const custodyOf = (itemId: string) =>
  testApp.services.laboratory.inLaboratory(lab.people.manager.actor, ({ prisma }) =>
    prisma.custodyEvent.findMany({ where: { itemId }, include: { itemNowsAsLastEvent: true } }),
  )

test('a sample gets a code for a paint marker and is in the care of who received it', async () => {
  const body = aggregate()
  const { body: sample } = await lab.as('technician').post(lab.path('/materials')).send(body).expect(201)
  expect(sample).toMatchObject(body)
  expect(isCode(sample.code)).toBe(true)
  const { membershipId } = lab.people.technician.actor
  expect(await custodyOf(body.id)).toMatchObject([
    {
      kind: 'received',
      fromParty: 'Skerry Edge Quarry',
      toMemberId: membershipId,
      eventAt: new Date('2026-03-02T08:40:00Z'),
      eventFrom: 'now',
      itemNowsAsLastEvent: [{ custodianId: membershipId, status: 'with' }],
    },
  ])
})

test('a sample entered later keeps its day, and says that the hour is not known', async () => {
  const { body: sample } = await lab
    .as('technician')
    .post(lab.path('/materials'))
    .send({ ...aggregate(), receivedOn: '2026-02-27' })
    .expect(201)
  expect(sample.receivedOn).toBe('2026-02-27')
  expect(await custodyOf(sample.id)).toMatchObject([
    { eventFrom: 'paper', note: expect.stringContaining('not recorded') },
  ])
})

test('a sample is not received before it is here', async () => {
  const { body } = await lab
    .as('technician')
    .post(lab.path('/materials'))
    .send({ ...aggregate(), receivedOn: '2026-03-03' })
    .expect(400)
  expect(body.errors[0].path).toBe('receivedOn')
})

test('the same request again is the same sample, received once', async () => {
  const body = aggregate()
  const first = await lab.as('technician').post(lab.path('/materials')).send(body).expect(201)
  const again = await lab.as('technician').post(lab.path('/materials')).send(body).expect(200)
  expect(again.body).toEqual(first.body)
  expect(await custodyOf(body.id)).toHaveLength(1)
  await lab
    .as('technician')
    .post(lab.path('/materials'))
    .send({ ...body, lot: 'B4' })
    .expect(409)
})

test('samples entered at once through two servers get codes of their own', async () => {
  const other = await testApp.startAnother()
  try {
    const answers = await Promise.all(
      Array.from({ length: 8 }, (_, index) =>
        lab
          .as('technician', index % 2 === 0 ? testApp.url : other.url)
          .post(lab.path('/materials'))
          .send(aggregate()),
      ),
    )
    expect(new Set(answers.map(({ body }) => body.code)).size).toBe(8)
  } finally {
    await other.close()
  }
})

test('samples are listed by kind, the latest first', async () => {
  await makeMaterial(testApp, lab, 'emulsion', { receivedOn: '2026-02-27' })
  await makeMaterial(testApp, lab, 'emulsion', { lot: '4418' })
  await makeMaterial(testApp, lab, 'filler')
  const { body } = await lab.as('auditor').get(lab.path('/materials?kind=emulsion')).expect(200)
  expect(body.items.map(({ lot }: { lot: string }) => lot)).toEqual(['4418', '4417'])
})

test('an auditor receives nothing; samples of another laboratory are not seen', async () => {
  await lab.as('auditor').post(lab.path('/materials')).send(aggregate()).expect(403)
  const elsewhere = await makeLaboratory(testApp)
  await makeMaterial(testApp, elsewhere, 'filler')
  const { body } = await lab.as('manager').get(lab.path('/materials')).expect(200)
  expect(body.items).toEqual([])
  await lab.as('manager').post(elsewhere.path('/materials')).send(aggregate()).expect(404)
})
