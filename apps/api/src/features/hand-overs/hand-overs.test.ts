import type { HandOver, OfferedHandOver } from '@curebook/contract/hand-overs'
import type { SpecimenRow } from '@curebook/contract/designs'
import type { Notices } from '@curebook/contract/notices'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
let begun: SpecimenRow
let due: SpecimenRow
let later: SpecimenRow

const memberOf = (key: PersonKey) => lab.people[key].actor.membershipId
const inLab = <T>(work: Parameters<typeof testApp.services.laboratory.inLaboratory<T>>[1]) =>
  testApp.services.laboratory.inLaboratory(lab.people.manager.actor, work)

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())
/** The technician has one test begun, one whose window is open, and one that nothing asks for yet. */
beforeEach(async () => {
  testApp.clock.set('2026-03-02T08:00:00Z')
  await testApp.database.identityPool.query('delete from identity_rate')
  lab = await makeLaboratory(testApp)
  const { specimens } = await makePlannedDesign(
    testApp,
    lab,
    aSeries({ methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 3, spares: [] }] }),
  )
  ;[begun, due, later] = specimens as [SpecimenRow, SpecimenRow, SpecimenRow]
  await lab
    .as('manager')
    .post(lab.path('/assignments'))
    .set('idempotency-key', newId())
    .send({ testIds: specimens.map(({ testId }) => testId), to: memberOf('technician') })
    .expect(200)
  await inLab(async ({ prisma }) => {
    await prisma.testNow.updateMany({ where: { labId: lab.labId, testId: begun.testId }, data: { state: 'in-work' } })
    await prisma.due.updateMany({
      where: { labId: lab.labId, testId: due.batchTestId! },
      data: { opensAt: '2026-03-02T07:30:00Z', closesAt: '2026-03-02T08:30:00Z' },
    })
  })
})

const offer = async (who: PersonKey = 'technician', id = newId()): Promise<OfferedHandOver> =>
  (await lab.as(who).post(lab.path('/hand-overs')).send({ id }).expect(201)).body
const lookUp = (code: string, who: PersonKey = 'technician2') =>
  lab.as(who).post(lab.path('/hand-overs/look-up')).send({ code })
const take = (
  code: string,
  testIds: string[],
  { who = 'technician2', key = newId(), url }: { who?: PersonKey; key?: string; url?: string } = {},
) => lab.as(who, url).post(lab.path('/hand-overs/take')).set('idempotency-key', key).send({ code, testIds })
const standing = async () =>
  new Map(
    (
      await inLab(({ prisma }) => prisma.testNow.findMany({ where: { labId: lab.labId, assigneeId: { not: null } } }))
    ).map(({ testId, assigneeId }) => [testId, assigneeId]),
  )
const noticesOf = async (who: PersonKey): Promise<Notices> =>
  (await lab.as(who).get(lab.path('/notices')).expect(200)).body

describe('offering', () => {
  it('shows what is begun or due under a code for ten minutes, which is kept as a digest only', async () => {
    const id = newId()
    const offered = await offer('technician', id)
    expect(offered.code).toMatch(/^[A-Z2-9]{4}-[A-Z2-9]{4}$/)
    expect(offered.square!.size).toBeGreaterThan(20)
    expect(offered.expiresAt).toBe('2026-03-02T08:10:00.000Z')
    expect(offered.tests.map(({ testId }) => testId).sort()).toEqual([begun.testId, due.testId].sort())
    const entry = await inLab(({ prisma }) => prisma.ledgerEntry.findFirst({ where: { subjectId: id } }))
    expect(entry!.content).not.toContain(offered.code)
    const again = await lab.as('technician').post(lab.path('/hand-overs')).send({ id }).expect(200)
    expect(again.body).toMatchObject({ code: null, square: null })
  })

  it('is refused to whom nothing is running, and to whoever does no tests', async () => {
    const nobody = await lab.as('technician2').post(lab.path('/hand-overs')).send({ id: newId() }).expect(409)
    expect(nobody.body.detail).toContain('nothing to hand over')
    for (const who of ['auditor', 'client'] as const)
      await lab.as(who).post(lab.path('/hand-overs')).send({ id: newId() }).expect(403)
  })
})

describe('taking over', () => {
  it('shows first what one gets, changes hands once with its reason, and tells who had it', async () => {
    const { code } = await offer()
    // As a scanner types it, or a person reads it.
    const seen: HandOver = (await lookUp(` ${code!.toLowerCase().replace('-', ' ')} `).expect(200)).body
    expect(seen.from.name).toBe('Person technician')
    expect(seen.notAuthorised).toEqual([])
    expect(seen.tests.find(({ testId }) => testId === due.testId)).toMatchObject({
      closesAt: '2026-03-02T08:30:00.000Z',
      started: false,
    })
    expect((await standing()).get(begun.testId)).toBe(memberOf('technician'))

    const { body } = await take(code!, [begun.testId, due.testId]).expect(200)
    expect(body.rows.map(({ outcome }: { outcome: string }) => outcome)).toEqual(['done', 'done'])
    const now = await standing()
    for (const id of [begun.testId, due.testId, due.batchTestId!]) expect(now.get(id)).toBe(memberOf('technician2'))
    expect(now.get(later.testId)).toBe(memberOf('technician'))
    const window = await inLab(({ prisma }) => prisma.due.findFirst({ where: { testId: due.batchTestId! } }))
    expect(window).toMatchObject({
      assigneeId: memberOf('technician2'),
      closesAt: new Date('2026-03-02T08:30:00Z'),
    })
    const told = await noticesOf('technician')
    expect(told.items[0]).toMatchObject({
      kind: 'taken',
      by: { name: 'Person technician2' },
      reason: 'Handed over at shift change',
    })
    // Nobody is told of what they did themselves.
    expect((await noticesOf('technician2')).count).toBe(0)
  })

  it('serves once: the same act again is the same answer, anybody else is told who took it', async () => {
    const { code } = await offer()
    const key = newId()
    const first = await take(code!, [begun.testId], { key }).expect(200)
    expect((await take(code!, [begun.testId], { key }).expect(200)).body).toEqual(first.body)
    const second = await take(code!, [due.testId], { who: 'engineer' }).expect(410)
    expect(second.body.detail).toContain('Person technician2 took this work')
    expect((await standing()).get(due.testId)).toBe(memberOf('technician'))
  })

  it('of two who scan at once on two servers one gets it', async () => {
    const { code } = await offer()
    const other = await testApp.startAnother()
    const answers = await Promise.all([
      take(code!, [begun.testId, due.testId]),
      take(code!, [begun.testId, due.testId], { who: 'engineer', url: other.url }),
    ])
    await other.close()
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 410])
    const winner = answers[0].status === 200 ? 'technician2' : 'engineer'
    const now = await standing()
    expect([now.get(begun.testId), now.get(due.testId)]).toEqual([memberOf(winner), memberOf(winner)])
    expect(await inLab(({ prisma }) => prisma.handOverTaken.count({ where: { labId: lab.labId } }))).toBe(1)
  })

  it('sent twice at once by one press is taken once, and both are answered alike', async () => {
    const { code } = await offer()
    const key = newId()
    const held = { sql: 'select from test_now where test_id = $1 for update', values: [begun.testId] }
    const [first, second] = await atOnce(
      testApp.ownerUrl,
      held,
      async () => take(code!, [begun.testId], { key }),
      async () => take(code!, [begun.testId], { key }),
    )
    if (first.status !== 'fulfilled' || second.status !== 'fulfilled') throw new Error('Both are answered.')
    expect([first.value.status, second.value.status]).toEqual([200, 200])
    expect(second.value.body).toEqual(first.value.body)
    expect((await noticesOf('technician')).items.filter(({ kind }) => kind === 'taken')).toHaveLength(1)
  })

  it('what a manager gives to somebody else at the same moment is theirs, and is reported to who takes', async () => {
    const { code } = await offer()
    const other = await testApp.startAnother()
    const tests = [begun, due].map(({ testId }) => testId)
    const give = () =>
      lab
        .as('manager', other.url)
        .post(lab.path('/assignments'))
        .set('idempotency-key', newId())
        .send({ testIds: [begun.testId], to: memberOf('engineer'), reason: 'Goes home early' })
    const held = { sql: 'select from test_now where test_id = any($1) for update', values: [tests] }
    const [given, taken] = await atOnce(
      testApp.ownerUrl,
      held,
      async () => give(),
      async () => take(code!, tests),
    )
    await other.close()
    if (given.status !== 'fulfilled' || taken.status !== 'fulfilled') throw new Error('Both are answered.')
    expect([given.value.status, taken.value.status]).toEqual([200, 200])
    expect(taken.value.body.rows).toEqual([
      { id: due.testId, outcome: 'done', sentence: null },
      { id: begun.testId, outcome: 'refused', sentence: expect.stringContaining('running work') },
    ])
    const now = await standing()
    expect([now.get(begun.testId), now.get(due.testId)]).toEqual([memberOf('engineer'), memberOf('technician2')])
  })

  it('of two shown at once through two servers the later one holds', async () => {
    const other = await testApp.startAnother()
    const { membershipId } = lab.people.technician.actor
    const held = {
      sql: 'select pg_advisory_xact_lock(hashtextextended($1, 0))',
      values: [`hand over ${lab.labId} ${membershipId}`],
    }
    const show = (url?: string) => async () =>
      lab.as('technician', url).post(lab.path('/hand-overs')).send({ id: newId() })
    const [first, second] = await atOnce(testApp.ownerUrl, held, show(), show(other.url))
    await other.close()
    if (first.status !== 'fulfilled' || second.status !== 'fulfilled') throw new Error('Both are answered.')
    expect([first.value.status, second.value.status]).toEqual([201, 201])
    await lookUp(first.value.body.code).expect(410)
    await lookUp(second.value.body.code).expect(200)
  })

  it('ends after ten minutes, and with a newer code of the same person', async () => {
    const { code } = await offer()
    testApp.clock.advance({ minutes: 10 })
    expect((await lookUp(code!).expect(410)).body.errors[0].path).toBe('code')
    await take(code!, [begun.testId]).expect(410)
    const { code: newer } = await offer()
    const { code: newest } = await offer()
    await lookUp(newer!).expect(410)
    await lookUp(newest!).expect(200)
  })

  it('is not one’s own, nor for a code that nobody shows, nor of another laboratory', async () => {
    const { code } = await offer()
    await lookUp(code!, 'technician').expect(409)
    await lookUp('AAAA-2222').expect(404)
    const elsewhere = await makeLaboratory(testApp)
    await elsewhere.as('technician').post(elsewhere.path('/hand-overs/look-up')).send({ code }).expect(404)
    await elsewhere
      .as('technician')
      .post(elsewhere.path('/hand-overs/take'))
      .set('idempotency-key', newId())
      .send({ code, testIds: [begun.testId] })
      .expect(404)
    for (const who of ['auditor', 'client'] as const) await lookUp(code!, who).expect(403)
  })

  it('is limited in attempts', async () => {
    for (let time = 0; time < 100; time += 1) await lookUp('AAAA-2222').expect(404)
    const { code } = await offer()
    await lookUp(code!).expect(429)
    await take(code!, [begun.testId]).expect(429)
  })

  it('says for what one is not authorised; left out it stays where it was, taken all the same it goes', async () => {
    await lab
      .as('manager')
      .post(lab.path('/authorisations'))
      .send({
        id: newId(),
        membershipId: memberOf('technician'),
        activity: 'method:wet-track-abrasion-1h',
        fromDay: '2026-03-01',
        evidence: 'Observed on three discs',
      })
      .expect(201)
    const { code } = await offer()
    const { notAuthorised }: HandOver = (await lookUp(code!).expect(200)).body
    expect(notAuthorised).toHaveLength(1)
    expect(notAuthorised[0]!.sentence).toContain('Person technician2')
    expect(notAuthorised[0]!.testIds.toSorted()).toEqual([begun.testId, due.testId].toSorted())
    await take(code!, []).expect(400)
    await take(code!, [due.testId]).expect(200)
    expect((await standing()).get(begun.testId)).toBe(memberOf('technician'))
    expect((await standing()).get(due.testId)).toBe(memberOf('technician2'))
  })

  it('takes nothing that is not running any more, and reports it', async () => {
    const { code } = await offer()
    await inLab(({ prisma }) =>
      prisma.due.deleteMany({ where: { labId: lab.labId, testId: { in: [begun.testId, begun.batchTestId!] } } }),
    )
    const gone = await take(code!, [begun.testId, later.testId]).expect(409)
    expect(gone.body.detail).toContain('Look at it again')
    const { body } = await take(code!, [begun.testId, due.testId]).expect(200)
    expect(body.rows).toEqual([
      { id: due.testId, outcome: 'done', sentence: null },
      { id: begun.testId, outcome: 'refused', sentence: expect.stringContaining('running work') },
    ])
    expect((await standing()).get(later.testId)).toBe(memberOf('technician'))
  })
})
