import type { SpecimenRow } from '@curebook/contract/designs'
import type { AssignmentConflict } from '@curebook/contract/schedule'
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
  // A Thursday.
  testApp = await startTestApp({ now: '2026-03-05T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
  ;({ specimens } = await makePlannedDesign(
    testApp,
    lab,
    aSeries({
      contents: ['10', '11', '12', '13', '14'],
      methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 8, spares: [] }],
    }),
  ))
})
afterAll(() => testApp.close())

const memberOf = (key: PersonKey) => lab.people[key].actor.membershipId
const check = async (rows: readonly SpecimenRow[], to: string | null): Promise<AssignmentConflict[]> => {
  const { body } = await lab
    .as('manager')
    .post(lab.path('/schedule/assignment-check'))
    .send({ testIds: rows.map(({ testId }) => testId), to })
    .expect(200)
  return body.conflicts
}
const assign = (rows: readonly SpecimenRow[], to: string | null) =>
  lab
    .as('manager')
    .post(lab.path('/assignments'))
    .set('idempotency-key', newId())
    .send({ testIds: rows.map(({ testId }) => testId), to })
const inLab = <T>(work: Parameters<typeof testApp.services.laboratory.inLaboratory<T>>[1]) =>
  testApp.services.laboratory.inLaboratory(lab.people.manager.actor, work)
/** Puts tests before their run, with this window. */
const atTheRun = (rows: readonly SpecimenRow[], opensAt: string, closesAt: string) =>
  inLab(async ({ prisma }) => {
    await prisma.due.deleteMany({ where: { testId: { in: rows.map(({ batchTestId }) => batchTestId) } } })
    await prisma.due.updateMany({
      where: { testId: { in: rows.map(({ testId }) => testId) } },
      data: { stepKey: 'abrade', act: 'start', opensAt, closesAt },
    })
  })
const kinds = (conflicts: readonly AssignmentConflict[]) => conflicts.map(({ kind }) => kind)

test('forty specimens that nothing bounds are given in one act, and nothing speaks against it', async () => {
  expect(specimens).toHaveLength(40)
  expect(await check(specimens, memberOf('technician'))).toEqual([])
  const before = await inLab(({ prisma }) => prisma.assignment.count())
  expect(before).toBe(0)
  const { body } = await assign(specimens, memberOf('technician')).expect(200)
  expect(body.rows).toHaveLength(40)
  expect(body.rows.every(({ outcome }: { outcome: string }) => outcome === 'done')).toBe(true)
})

test('void tests and begun ones of somebody else are named before they are refused', async () => {
  const [ended, begun, free] = specimens as [SpecimenRow, SpecimenRow, SpecimenRow]
  await assign([ended, begun], memberOf('technician')).expect(200)
  await inLab(async ({ prisma }) => {
    await prisma.testNow.updateMany({ where: { testId: ended.testId }, data: { state: 'void' } })
    await prisma.testNow.updateMany({ where: { testId: begun.testId }, data: { state: 'in-work' } })
  })
  const conflicts = await check([ended, begun, free], memberOf('technician2'))
  expect(conflicts).toEqual([
    {
      kind: 'refused',
      sentence: `${ended.label} (${ended.code}) is void: there is nothing left to do.`,
      tests: [{ id: ended.testId, label: ended.label, code: ended.code }],
    },
    { kind: 'begun', tests: [{ id: begun.testId, label: begun.label, code: begun.code }] },
  ])
  expect(kinds(await check([begun], memberOf('technician')))).toEqual([])
  expect(kinds(await check([begun], null))).toEqual(['begun'])
})

test('a window that closes on a Saturday is said, and by which day', async () => {
  const [one, other] = specimens as [SpecimenRow, SpecimenRow]
  await atTheRun([one], '2026-03-07T09:00:00Z', '2026-03-07T10:00:00Z')
  await atTheRun([other], '2026-03-06T09:00:00Z', '2026-03-06T10:00:00Z')
  const conflicts = await check([one, other], memberOf('technician'))
  expect(conflicts).toMatchObject([{ kind: 'closed-day', day: '2026-03-07', tests: [{ id: one.testId }] }])
})

test('more hands-on work than a shift holds is said, with what the person has already', async () => {
  const [mine, given] = [specimens.slice(0, 20), specimens.slice(20)]
  await atTheRun(specimens, '2026-03-05T09:00:00Z', '2026-03-05T20:00:00Z')
  await assign(mine, memberOf('technician')).expect(200)
  const conflicts = await check(given, memberOf('technician'))
  // 40 runs of 15 min against the laboratory's shift; all of them also within 11 h.
  const shift = conflicts.find(({ kind }) => kind === 'over-shift')
  expect(shift).toMatchObject({ day: '2026-03-05', minutes: 600 })
  expect(kinds(conflicts)).toEqual(['over-shift'])
  expect(kinds(await check(given, memberOf('technician2')))).toEqual([])
})

test('runs whose windows cannot all be met by one person are named, and other steps at the same time', async () => {
  const discs = specimens.slice(0, 4)
  await atTheRun(discs, '2026-03-05T11:20:00Z', '2026-03-05T11:35:00Z')
  const [crowded] = await check(discs, memberOf('technician'))
  expect(crowded).toMatchObject({
    kind: 'crowded',
    from: '2026-03-05T11:20:00.000Z',
    to: '2026-03-05T11:35:00.000Z',
    minutes: 60,
  })
  await inLab(({ prisma }) =>
    prisma.due.updateMany({ where: { testId: discs[0]!.testId }, data: { stepKey: 'cure', act: 'end' } }),
  )
  await assign([discs[0]!], memberOf('technician')).expect(200)
  expect(await check([discs[1]!], memberOf('technician'))).toEqual([{ kind: 'overlap', steps: ['Abrade'] }])
})

test('who cannot be given tests is told beside the field; a technician asks nothing', async () => {
  const body = { testIds: [specimens[0]!.testId], to: memberOf('auditor') }
  const refused = await lab.as('manager').post(lab.path('/schedule/assignment-check')).send(body).expect(400)
  expect(refused.body.errors[0].path).toBe('to')
  await lab.as('technician').post(lab.path('/schedule/assignment-check')).send(body).expect(403)
})

test('once anybody is authorised for the method, whoever is not is named with the specimens; on the last day one still is', async () => {
  const [one, other] = specimens as [SpecimenRow, SpecimenRow]
  const authorise = (key: PersonKey, untilDay?: string) =>
    lab
      .as('manager')
      .post(lab.path('/authorisations'))
      .send({
        ...{ id: newId(), membershipId: memberOf(key), activity: 'method:wet-track-abrasion-1h' },
        ...{ fromDay: '2026-01-01', untilDay, evidence: 'Observed twice' },
      })
      .expect(201)
  await authorise('technician2', '2026-03-06')
  const [conflict] = await check([one, other], memberOf('technician'))
  expect(conflict).toMatchObject({ kind: 'not-authorised', tests: [{ id: one.testId }, { id: other.testId }] })
  expect(conflict).toHaveProperty('sentence', expect.stringContaining('Wet track abrasion, 1-hour soak'))
  expect(kinds(await check([one, other], memberOf('technician2')))).toEqual([])
  await atTheRun([other], '2026-03-09T09:00:00Z', '2026-03-09T10:00:00Z')
  expect(await check([one, other], memberOf('technician2'))).toMatchObject([
    { kind: 'not-authorised', tests: [{ id: other.testId }] },
  ])
})
