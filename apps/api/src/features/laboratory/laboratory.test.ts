import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { actionsOf } from '#platform/permissions'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp()
})
afterAll(() => testApp.close())
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})

describe('a laboratory', () => {
  test('tells each person who they are here and what they may do', async () => {
    for (const who of ['manager', 'technician', 'engineer', 'auditor', 'client'] as const) {
      const { body } = await lab.as(who).get(lab.path()).expect(200)
      const { membershipId, name, initials, roles, clientId } = lab.people[who].actor
      expect(body.me).toEqual({ membershipId, name, initials, roles, clientId })
      expect(body.actions).toEqual(actionsOf([who]))
    }
  })

  test('keeps what its manager sets, with before and after in the ledger', async () => {
    const changes = {
      zone: 'America/Bogota',
      decimalSign: 'comma',
      paper: 'letter',
      closedDays: { weekdays: [7], dates: ['2026-12-25'] },
      shifts: [
        { from: '06:30', to: '14:30' },
        { from: '22:00', to: '06:00' },
      ],
      breaks: [{ from: '12:00', to: '12:30' }],
    }
    const seen = await lab.as('manager').get(lab.path()).expect(200)
    const { body, headers } = await lab
      .as('manager')
      .patch(lab.path())
      .set('if-match', seen.headers.etag!)
      .send(changes)
      .expect(200)
    expect(body).toMatchObject({ ...changes, version: 2 })
    expect(headers.etag).toBe('"2"')
    const stale = await lab
      .as('manager')
      .patch(lab.path())
      .set('if-match', seen.headers.etag!)
      .send({ paper: 'a4' })
      .expect(412)
    expect(stale.body.stored).toMatchObject({ paper: 'letter' })
    const { body: page } = await lab
      .as('auditor')
      .get(lab.path('/ledger/entries?subjectKind=laboratory&limit=1'))
      .expect(200)
    expect(JSON.parse(page.items[0].content).content).toMatchObject({
      before: { paper: 'a4' },
      after: { paper: 'letter' },
    })
  })

  test('is set by its manager alone', async () => {
    for (const who of ['technician', 'engineer', 'auditor', 'client'] as const)
      await lab.as(who).patch(lab.path()).set('if-match', '"1"').send({ paper: 'letter' }).expect(403)
  })

  test('changed by two at the same moment keeps one change, and tells the other', async () => {
    const change = (name: string) => lab.as('manager').patch(lab.path()).set('if-match', '"1"').send({ name })
    const statuses = (await Promise.all([change('One'), change('Two')])).map(({ status }) => status)
    expect(statuses.sort()).toEqual([200, 412])
  })
})
