import type { ClientProjects } from '@curebook/contract/reports'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { makeProject } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

const set = (
  lab: TestLaboratory,
  project: string,
  body: object,
  who: 'manager' | 'engineer' = 'manager',
  url?: string,
) =>
  lab
    .as(who, url)
    .post(lab.path(`/projects/${project}/expected-days`))
    .send({ id: newId(), after: null, ...body })
const seenBy = async (lab: TestLaboratory, who: 'client' | 'otherClient') =>
  ((await lab.as(who).get(lab.path('/progress')).expect(200)).body as ClientProjects).projects

describe('the day on which a report is expected', () => {
  it('is told to its client as a day; a change is dated, and says why', async () => {
    const lab = await makeLaboratory(testApp)
    const { id: project } = await makeProject(testApp, lab)
    expect((await seenBy(lab, 'client'))[0]!.expected).toEqual([])
    const { body: first } = await set(lab, project, { day: '2026-03-20' }).expect(201)
    expect(first).toMatchObject({ day: '2026-03-20', from: null, reason: null })

    testApp.clock.advance({ days: 1 })
    const later = { day: '2026-03-27', after: first.id }
    const silent = await set(lab, project, later, 'engineer')
    expect([silent.status, silent.body.errors?.[0].path]).toEqual([400, 'reason'])
    const reason = 'The oven was out of service for a week'
    const { body: second } = await set(lab, project, { ...later, reason }, 'engineer').expect(201)
    const [told] = await seenBy(lab, 'client')
    expect(told!.expected).toEqual([second, first])
    expect(second).toMatchObject({ day: '2026-03-27', from: '2026-03-20', reason })
    expect(Date.parse(second.at) - Date.parse(first.at)).toBe(24 * 60 * 60 * 1000)
    expect(await seenBy(lab, 'otherClient')).toEqual([])

    await set(lab, project, { day: '2026-03-27', after: second.id, reason: 'The same' }).expect(400)
    await set(lab, project, { day: '2026-03-01', after: second.id, reason: 'In the past' }).expect(400)
    await lab
      .as('technician')
      .post(lab.path(`/projects/${project}/expected-days`))
      .send({ id: newId(), after: null, day: '2026-03-20' })
      .expect(403)
  })

  it('is set by one of two who set it at once; the other is told what stands', async () => {
    const lab = await makeLaboratory(testApp)
    const { id: project } = await makeProject(testApp, lab)
    const another = await testApp.startAnother()
    try {
      const answers = await Promise.all([
        set(lab, project, { day: '2026-04-10' }),
        set(lab, project, { day: '2026-04-20' }, 'engineer', another.url),
      ])
      expect(answers.map(({ status }) => status).sort()).toEqual([201, 412])
      const stands = answers.find(({ status }) => status === 201)!.body.day
      expect(answers.find(({ status }) => status === 412)!.body.detail).toContain(stands)
      const { body } = await lab
        .as('auditor')
        .get(lab.path(`/projects/${project}/expected-days`))
        .expect(200)
      expect(body.items.map(({ day }: { day: string }) => day)).toEqual([stands])
    } finally {
      await another.close()
    }
  })
  it('sent twice at once through two servers is set once, and both are answered alike', async () => {
    const lab = await makeLaboratory(testApp)
    const { id: project } = await makeProject(testApp, lab)
    const another = await testApp.startAnother()
    try {
      const body = { id: newId(), day: '2026-04-10' }
      const held = { sql: 'select id from project where id = $1 for update', values: [project] }
      const [first, second] = await atOnce(
        testApp.ownerUrl,
        held,
        async () => set(lab, project, body),
        async () => set(lab, project, body, 'manager', another.url),
      )
      if (first.status !== 'fulfilled' || second.status !== 'fulfilled') throw new Error('Both are answered.')
      expect([first.value.status, second.value.status]).toEqual([201, 200])
      expect(second.value.body).toEqual(first.value.body)
      const { body: listed } = await lab
        .as('auditor')
        .get(lab.path(`/projects/${project}/expected-days`))
        .expect(200)
      expect(listed.items).toEqual([first.value.body])

      // Another day under the same id is still a conflict with both.
      const other = await set(lab, project, { ...body, day: '2026-04-11' }).expect(409)
      expect(other.body).toMatchObject({ stored: { day: '2026-04-10' }, sent: { day: '2026-04-11' } })
    } finally {
      await another.close()
    }
  })
})
