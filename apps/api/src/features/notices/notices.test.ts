import type { SpecimenRow } from '@curebook/contract/designs'
import type { Notices } from '@curebook/contract/notices'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
let specimens: SpecimenRow[]

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  testApp.clock.set('2026-03-02T08:00:00Z')
  lab = await makeLaboratory(testApp)
  ;({ specimens } = await makePlannedDesign(
    testApp,
    lab,
    aSeries({ methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 3, spares: [] }] }),
  ))
})
afterAll(() => testApp.close())

const of = async (who: PersonKey): Promise<Notices> => (await lab.as(who).get(lab.path('/notices')).expect(200)).body
const told = async (who: PersonKey) =>
  (await of(who)).items.map(({ kind, by, others, reason, tests }) => ({
    kind,
    by: by.name,
    others: others.map(({ name }) => name),
    reason,
    tests: tests.map(({ label }) => label),
  }))
const memberOf = (key: PersonKey) => lab.people[key].actor.membershipId
const testIds = () => specimens.map(({ testId }) => testId)
const assign = (
  ids: string[],
  to: PersonKey | null,
  { reason, key = newId(), by = 'manager', url }: { reason?: string; key?: string; by?: PersonKey; url?: string } = {},
) =>
  lab
    .as(by, url)
    .post(lab.path('/assignments'))
    .set('idempotency-key', key)
    .send({ testIds: ids, to: to && memberOf(to), reason })
const see = (who: PersonKey, id: string, url?: string) => lab.as(who, url).post(lab.path(`/notices/${id}/seen`))
const inLab = <T>(
  work: Parameters<typeof testApp.services.laboratory.inLaboratory<T>>[1],
  who: PersonKey = 'manager',
) => testApp.services.laboratory.inLaboratory(lab.people[who].actor, work)

test('a first assignment tells the one person, all tests in one notice, each specimen once', async () => {
  await assign(testIds(), 'technician').expect(200)
  const { count, items } = await of('technician')
  expect([count, items[0]!.at]).toEqual([1, '2026-03-02T08:00:00.000Z'])
  expect(items[0]!.tests).toEqual(
    specimens
      .map(({ testId, code, label }) => ({ testId, code, label }))
      .toSorted((a, b) => a.label.localeCompare(b.label)),
  )
  expect(await told('technician')).toEqual([
    { kind: 'given', by: 'Person manager', others: [], reason: null, tests: ['12-1', '12-2', '12-3'] },
  ])
  for (const who of ['manager', 'technician2', 'engineer'] as const) expect((await of(who)).count).toBe(0)
})

test('reassigning tells both: who had it and who has it now, with the reason of what was begun', async () => {
  await assign(testIds(), 'technician').expect(200)
  await inLab(({ prisma }) =>
    prisma.testNow.updateMany({ where: { labId: lab.labId, testId: testIds()[0]! }, data: { state: 'in-work' } }),
  )
  testApp.clock.set('2026-03-02T09:00:00Z')
  await assign([testIds()[0]!], 'technician2', { reason: 'A is away' }).expect(200)
  await assign([testIds()[1]!], 'technician2', { by: 'engineer' }).expect(200)
  expect((await told('technician')).toSorted((a, b) => a.tests.length - b.tests.length)).toMatchObject([
    { kind: 'taken', others: ['Person technician2'] },
    { kind: 'taken', others: ['Person technician2'] },
    { kind: 'given', tests: ['12-1', '12-2', '12-3'] },
  ])
  expect(new Set(await told('technician2'))).toEqual(
    new Set([
      {
        kind: 'given',
        by: 'Person manager',
        others: ['Person technician'],
        reason: 'A is away',
        tests: [specimens[0]!.label],
      },
      {
        kind: 'given',
        by: 'Person engineer',
        others: ['Person technician'],
        reason: null,
        tests: [specimens[1]!.label],
      },
    ]),
  )
})

test('a refused row is told to nobody; tests taken back are told to who had them', async () => {
  await assign(testIds(), 'technician').expect(200)
  await inLab(({ prisma }) =>
    prisma.testNow.updateMany({ where: { labId: lab.labId, testId: testIds()[0]! }, data: { state: 'in-work' } }),
  )
  await assign([testIds()[0]!], 'technician2').expect(200)
  expect([(await of('technician')).count, (await of('technician2')).count]).toEqual([1, 0])
  testApp.clock.set('2026-03-02T09:00:00Z')
  await assign([testIds()[1]!], null).expect(200)
  expect((await told('technician'))[0]).toEqual({
    ...{ kind: 'taken', by: 'Person manager', others: [], reason: null },
    tests: [specimens[1]!.label],
  })
})

test('an act repeated under its key tells once, and giving what somebody has already tells nothing', async () => {
  const key = newId()
  await assign(testIds(), 'technician', { key }).expect(200)
  await assign(testIds(), 'technician', { key }).expect(200)
  await assign(testIds(), 'technician').expect(200)
  expect((await of('technician')).count).toBe(1)
})

test('who gives tests to themselves is not told', async () => {
  await assign(testIds(), 'manager').expect(200)
  expect((await of('manager')).count).toBe(0)
})

test('seen is a row of its own; the notice stays, and said twice at once on two servers it is said once', async () => {
  await assign(testIds(), 'technician').expect(200)
  const { id } = (await of('technician')).items[0]!
  const other = await testApp.startAnother()
  try {
    const answers = await Promise.all([see('technician', id), see('technician', id, other.url)])
    expect(answers.map(({ status }) => status)).toEqual([200, 200])
  } finally {
    await other.close()
  }
  expect(await of('technician')).toEqual({ count: 0, items: [] })
  const kept = await inLab(
    async ({ prisma }) => [
      await prisma.notice.count({ where: { id } }),
      await prisma.noticeSeen.count({ where: { noticeId: id } }),
      await prisma.ledgerEntry.count({ where: { action: 'notice:see', subjectId: id } }),
    ],
    'technician',
  )
  expect(kept).toEqual([1, 1, 1])
  await expect(
    inLab(({ prisma }) => prisma.notice.updateMany({ where: { id }, data: { kind: 'taken' } }), 'technician'),
  ).rejects.toThrow()
})

test('two managers at once on two servers: each person is told of exactly the assignments that stand in the chain', async () => {
  const other = await testApp.startAnother()
  try {
    const answers = await Promise.all([
      assign(testIds(), 'technician'),
      assign(testIds().toReversed(), 'technician2', { by: 'engineer', url: other.url }),
    ])
    expect(answers.map(({ status }) => status)).toEqual([200, 200])
  } finally {
    await other.close()
  }
  const [a, b] = [await told('technician'), await told('technician2')]
  const kinds = [a, b]
    .map((notices) => notices.map(({ kind }) => kind).toSorted())
    .toSorted((x, y) => x.length - y.length)
  expect(kinds).toEqual([['given'], ['given', 'taken']])
  const [later] = [a, b].filter((notices) => notices.length === 1)
  expect(later![0]).toMatchObject({ others: [a.length === 1 ? 'Person technician2' : 'Person technician'] })
})

test('nobody reads or sees another’s notice, not even by a query of their own; a client and an auditor are refused', async () => {
  await assign(testIds(), 'technician').expect(200)
  const { id } = (await of('technician')).items[0]!
  for (const who of ['manager', 'technician2', 'engineer'] as const) {
    await see(who, id).expect(404)
    expect(await inLab(({ prisma }) => prisma.notice.count({ where: { id } }), who)).toBe(0)
  }
  await expect(
    inLab(
      ({ prisma, actor, at }) =>
        prisma.noticeSeen.createMany({
          data: [{ labId: actor.labId, noticeId: id, byId: actor.membershipId, at }],
        }),
      'technician2',
    ),
  ).rejects.toThrow()
  for (const who of ['client', 'auditor'] as const) {
    await lab.as(who).get(lab.path('/notices')).expect(403)
    await see(who, id).expect(403)
  }
  expect((await of('technician')).count).toBe(1)
  const elsewhere = await makeLaboratory(testApp)
  await elsewhere
    .as('technician')
    .post(elsewhere.path(`/notices/${id}/seen`))
    .expect(404)
})
