import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { makeLaboratory, makePerson, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})

const grantBody = (more: object = {}) => ({
  id: newId(),
  membershipId: lab.people.technician.actor.membershipId,
  activity: 'method:wet-track-abrasion-1h',
  fromDay: '2026-03-01',
  untilDay: null,
  evidence: 'Observed on 3 discs',
  ...more,
})
const grant = (body: object) => lab.as('manager').post(lab.path('/authorisations')).send(body)
const correct = (id: string, body: object) =>
  lab
    .as('manager')
    .post(lab.path(`/authorisations/${id}/corrections`))
    .send({ id: newId(), fromDay: '2026-03-01', untilDay: null, evidence: 'Observed on 3 discs', ...body })
const list = async () => (await lab.as('technician').get(lab.path('/authorisations')).expect(200)).body

describe('authorisations', () => {
  it('bind an activity from the first one on, and no other activity', async () => {
    expect((await list()).activities.every(({ binds }: { binds: boolean }) => !binds)).toBe(true)
    await grant(grantBody()).expect(201)
    const { items, activities } = await list()
    expect(items).toHaveLength(1)
    expect(items[0]).toMatchObject({ person: { name: 'Person technician' }, state: 'current', reason: null })
    expect(
      activities.filter(({ binds }: { binds: boolean }) => binds).map(({ activity }: { activity: string }) => activity),
    ).toEqual(['method:wet-track-abrasion-1h'])
  })

  it('are the same thing when sent again, and another under the same id is a conflict', async () => {
    const body = grantBody()
    await grant(body).expect(201)
    await grant(body).expect(200)
    await grant({ ...body, evidence: 'Something else' }).expect(409)
  })

  it('end by a correction with a reason; the earlier one stays on record and the activity stays bound', async () => {
    const { body: first } = await grant(grantBody()).expect(201)
    await correct(first.id, { untilDay: '2026-03-20' }).expect(400)
    await correct(first.id, { untilDay: '2026-03-20', reason: 'Leaves the laboratory' }).expect(201)
    const { items, activities } = await list()
    expect(items).toMatchObject([{ untilDay: '2026-03-20', state: 'ending', reason: 'Leaves the laboratory' }])
    expect(activities).toContainEqual(
      expect.objectContaining({ activity: 'method:wet-track-abrasion-1h', binds: true }),
    )
  })

  it('are corrected once: of two at the same moment the second is told of the first', async () => {
    const { body: first } = await grant(grantBody()).expect(201)
    const answers = await Promise.all(
      ['2026-03-20', '2026-03-25'].map((untilDay) => correct(first.id, { untilDay, reason: `Until ${untilDay}` })),
    )
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
    const refused = answers.find(({ status }) => status === 409)!
    expect(refused.body.detail).toContain('Person manager has changed this authorisation meanwhile')
    expect((await list()).items).toHaveLength(1)
  })

  it('of two managers who authorise one another at once both stand', async () => {
    const { actor } = await makePerson(testApp, lab, { name: 'Second manager', roles: ['manager'] })
    const managers = [lab.people.manager.actor, actor]
    const grants = managers.map(
      (by, index) => () =>
        testApp.services.authorisations.grant(by, {
          ...{ id: newId(), membershipId: managers[1 - index]!.membershipId, activity: 'method:wet-track-abrasion-1h' },
          ...{ fromDay: '2026-03-02', untilDay: null, evidence: 'Observed on three discs' },
        }),
    )
    const ids = managers.map(({ membershipId }) => membershipId)
    const held = { sql: 'select from membership where id = any($1) for update', values: [ids] }
    const outcomes = await atOnce(testApp.ownerUrl, held, ...grants)
    expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'fulfilled'])
    expect((await list()).items).toHaveLength(2)
  })

  it('refuse a span that ends before it begins, an unknown activity and a client', async () => {
    await grant(grantBody({ untilDay: '2026-02-01' })).expect(400)
    await grant(grantBody({ activity: 'method:nothing-of-the-kind' })).expect(400)
    await grant(grantBody({ membershipId: lab.people.client.actor.membershipId })).expect(400)
  })
})
