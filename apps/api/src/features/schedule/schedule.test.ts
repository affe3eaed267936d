import type { SpecimenRow } from '@curebook/contract/designs'
import type { Schedule } from '@curebook/contract/schedule'
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

const read = async (who: PersonKey = 'manager'): Promise<Schedule> =>
  (await lab.as(who).get(lab.path('/schedule')).expect(200)).body
const memberOf = (key: PersonKey) => lab.people[key].actor.membershipId
const assign = (
  testIds: string[],
  to: string | null,
  { reason, key = newId(), url }: { reason?: string; key?: string; url?: string } = {},
) => lab.as('manager', url).post(lab.path('/assignments')).set('idempotency-key', key).send({ testIds, to, reason })
const inLab = <T>(work: Parameters<typeof testApp.services.laboratory.inLaboratory<T>>[1]) =>
  testApp.services.laboratory.inLaboratory(lab.people.manager.actor, work)
const testIds = () => specimens.map(({ testId }) => testId)

test('a planned series stands on the schedule, one row a specimen, beginning with its batch', async () => {
  const { rows, counts, people } = await read('technician')
  expect(
    rows.map(({ label, stepTitle, urgency, started, assignee }) => ({ label, stepTitle, urgency, started, assignee })),
  ).toEqual(
    ['12-1', '12-2', '12-3'].map((label) => ({
      label,
      stepTitle: 'Weigh the components',
      urgency: 'any-time',
      started: false,
      assignee: null,
    })),
  )
  expect(counts).toEqual({
    ...{ late: 0, dueToday: 0, stuck: 0, unassigned: 3 },
    ...{ waitingDecision: 0, decisionsElsewhere: 0 },
  })
  expect(people.map(({ name, assigned }) => `${name} ${assigned}`)).not.toContain('Person auditor 0')
})

test('rows are late, due today or later by their windows, in the laboratory’s day', async () => {
  await inLab(async ({ prisma }) => {
    const [late, today, later] = specimens
    for (const [row, closesAt] of [
      [late, '2026-03-02T07:59:00Z'],
      [today, '2026-03-02T23:59:00Z'],
      [later, '2026-03-03T00:01:00Z'],
    ] as const)
      await prisma.due.updateMany({ where: { labId: lab.labId, testId: row!.batchTestId }, data: { closesAt } })
  })
  const { rows, counts } = await read()
  expect(rows.map(({ urgency }) => urgency)).toEqual(['late', 'open', 'open'])
  expect(counts).toMatchObject({ late: 1, dueToday: 1 })
})

test('many tests are given in one act, each with its batch', async () => {
  const [first, second] = specimens
  const { body } = await assign([first!.testId, second!.testId, newId()], memberOf('technician')).expect(200)
  expect(body.rows.map(({ outcome }: { outcome: string }) => outcome)).toEqual(['done', 'done', 'refused'])
  const { rows, counts, people } = await read()
  expect(rows.map(({ assignee }) => assignee?.name)).toEqual(['Person technician', 'Person technician', undefined])
  expect([counts.unassigned, people.find(({ name }) => name === 'Person technician')?.assigned]).toEqual([1, 2])
  const given = await inLab(async ({ prisma }) => ({
    standing: await prisma.testNow.findMany({ where: { assigneeId: memberOf('technician') } }),
    due: await prisma.due.count({ where: { assigneeId: memberOf('technician') } }),
    entries: await prisma.ledgerEntry.count({ where: { action: 'assignment:create' } }),
  }))
  expect(given.standing.map(({ testId }) => testId).toSorted()).toEqual(
    [first, second].flatMap((row) => [row!.testId, row!.batchTestId]).toSorted(),
  )
  expect([given.due, given.entries]).toEqual([4, 4])
})

test('a begun test changes hands only with a reason; the others of the same act go on', async () => {
  await assign(testIds(), memberOf('technician')).expect(200)
  const [begun, ...others] = specimens
  await inLab(({ prisma }) =>
    prisma.testNow.updateMany({ where: { labId: lab.labId, testId: begun!.testId }, data: { state: 'in-work' } }),
  )
  const { body } = await assign(testIds(), memberOf('technician2')).expect(200)
  expect(body.rows.map(({ id, outcome }: { id: string; outcome: string }) => [id, outcome])).toEqual([
    [begun!.testId, 'refused'],
    ...others.map(({ testId }) => [testId, 'done']),
  ])
  await assign([begun!.testId], memberOf('technician2'), { reason: 'A is away' }).expect(200)
  const chain = await inLab(({ prisma }) =>
    prisma.assignment.findMany({ where: { testId: begun!.testId }, orderBy: { writtenAt: 'asc' } }),
  )
  expect(chain.map(({ toMemberId, reason }) => [toMemberId, reason])).toEqual([
    [memberOf('technician'), null],
    [memberOf('technician2'), 'A is away'],
  ])
})

test('a test can be taken back, and an act repeated under its key is one act', async () => {
  const key = newId()
  const first = await assign(testIds(), memberOf('technician'), { key }).expect(200)
  const again = await assign(testIds(), memberOf('technician'), { key }).expect(200)
  expect(again.body).toEqual(first.body)
  await assign(testIds(), null).expect(200)
  expect((await read()).counts.unassigned).toBe(3)
  expect(await inLab(({ prisma }) => prisma.assignment.count({ where: { testId: specimens[0]!.testId } }))).toBe(2)
})

test('two managers giving the same tests at once through two servers: both acts stand, one after the other', async () => {
  const other = await testApp.startAnother()
  try {
    const answers = await Promise.all([
      assign(testIds(), memberOf('technician')),
      assign(testIds().toReversed(), memberOf('technician2'), { url: other.url }),
    ])
    expect(answers.map(({ status }) => status)).toEqual([200, 200])
    const chains = await inLab(({ prisma }) => prisma.assignment.findMany({ include: { supersededBy: true } }))
    const heads = chains.filter(({ supersededBy }) => supersededBy === null)
    expect([chains.length, heads.length]).toEqual([12, 6])
    const { rows } = await read()
    expect(new Set(rows.map(({ assignee }) => assignee!.membershipId))).toEqual(
      new Set(heads.map(({ toMemberId }) => toMemberId)),
    )
  } finally {
    await other.close()
  }
})

test('who cannot do tests is not given any; a technician gives none; other laboratories are not found', async () => {
  for (const to of [memberOf('auditor'), memberOf('client'), newId()]) {
    const { body } = await assign(testIds(), to).expect(400)
    expect(body.errors[0].path).toBe('to')
  }
  await lab
    .as('technician')
    .post(lab.path('/assignments'))
    .set('idempotency-key', newId())
    .send({ testIds: testIds(), to: null })
    .expect(403)
  await lab.as('manager').post(lab.path('/assignments')).send({ testIds: testIds(), to: null }).expect(400)
  const elsewhere = await makeLaboratory(testApp)
  await lab.as('manager').get(elsewhere.path('/schedule')).expect(404)
  const { body } = await elsewhere
    .as('manager')
    .post(elsewhere.path('/assignments'))
    .set('idempotency-key', newId())
    .send({ testIds: testIds(), to: null })
    .expect(200)
  expect(body.rows.every(({ outcome }: { outcome: string }) => outcome === 'refused')).toBe(true)
})
