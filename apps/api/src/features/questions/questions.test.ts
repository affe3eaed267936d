import type { Question } from '@curebook/contract/questions'
import type { ClientProjects } from '@curebook/contract/reports'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { makeProject } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { issueReport } from '../../../../../tests/support/factories/report.ts'
import { makeApprovedDesign, oneDisc } from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

type Client = 'client' | 'otherClient'
const ask = (lab: TestLaboratory, body: object, who: Client = 'client') =>
  lab
    .as(who)
    .post(lab.path('/own-questions'))
    .send({ id: newId(), reportId: null, text: 'When is it done?', ...body })
const answer = (lab: TestLaboratory, question: string, text: string, who: 'engineer' | 'manager' | 'technician') =>
  lab
    .as(who)
    .post(lab.path(`/questions/${question}/answers`))
    .send({ id: newId(), text })
const own = async (lab: TestLaboratory, who: Client = 'client') =>
  ((await lab.as(who).get(lab.path('/progress')).expect(200)).body as ClientProjects).projects
const open = async (lab: TestLaboratory) =>
  (await lab.as('technician').get(lab.path('/questions')).query({ open: 'true' }).expect(200)).body.items as Question[]

describe('a question of a client', () => {
  it('stays where it was put, and the answers with it; both sides read both', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeApprovedDesign(testApp, lab, { weighings: oneDisc })
    const report = await issueReport(testApp, lab, { designId: design.id, revisionId: design.revisionId })
    const { projectId } = design
    const aboutReport = { projectId, reportId: report.id, text: 'Which limit sets the minimum?' }
    const { body: asked } = await ask(lab, aboutReport).expect(201)
    expect(asked).toMatchObject({ ...aboutReport, reportNumber: report.number, askedBy: 'Person client', answers: [] })
    testApp.clock.advance({ minutes: 1 })
    const { body: whole } = await ask(lab, { projectId }).expect(201)
    expect((await open(lab)).map(({ id }) => id)).toEqual([whole.id, asked.id])

    await answer(lab, asked.id, 'The 6-day soak.', 'engineer').expect(201)
    testApp.clock.advance({ minutes: 1 })
    await answer(lab, asked.id, 'At 6.9 % residual binder.', 'manager').expect(201)
    expect((await open(lab)).map(({ id }) => id)).toEqual([whole.id])
    const [project] = await own(lab)
    expect(project!.questions.map(({ id, reportId, answers }) => [id, reportId, answers.length])).toEqual([
      [whole.id, null, 0],
      [asked.id, report.id, 2],
    ])
    expect(project!.questions[1]!.answers.map(({ text, answeredBy }) => [text, answeredBy])).toEqual([
      ['The 6-day soak.', 'Person engineer'],
      ['At 6.9 % residual binder.', 'Person manager'],
    ])
  })

  it('is that client’s alone: another client neither sees it nor asks about it', async () => {
    const lab = await makeLaboratory(testApp)
    const { id: projectId } = await makeProject(testApp, lab)
    const { body: asked } = await ask(lab, { projectId }).expect(201)
    await ask(lab, { projectId }, 'otherClient').expect(404)
    expect(JSON.stringify(await own(lab, 'otherClient'))).not.toContain(asked.id)
    // Under the id of a question that is not theirs nothing is answered but that it is taken.
    const taken = await ask(lab, { id: asked.id, projectId }, 'otherClient').expect(404)
    expect(taken.text).not.toContain('When is it done')
    await lab.as('client').get(lab.path('/questions')).expect(403)
    await answer(lab, asked.id, 'Soon', 'technician').expect(403)
    const elsewhere = await makeLaboratory(testApp)
    await answer(elsewhere, asked.id, 'Soon', 'engineer').expect(404)
    await ask(elsewhere, { projectId }).expect(404)
  })

  it('is kept once when it is sent twice at once, and another one under its id is refused', async () => {
    const lab = await makeLaboratory(testApp)
    const { id: projectId } = await makeProject(testApp, lab)
    const body = { id: newId(), projectId }
    const sent = await Promise.all([ask(lab, body), ask(lab, body)])
    expect(sent.map(({ status }) => status).sort()).toEqual([200, 201])
    await ask(lab, { ...body, text: 'Another one' }).expect(409)
    await ask(lab, { projectId, text: '  ' }).expect(400)
    await ask(lab, { projectId, reportId: newId() }).expect(400)
    expect(await open(lab)).toHaveLength(1)
    const reply = { id: newId(), text: 'On Friday' }
    const reply2 = () =>
      lab
        .as('engineer')
        .post(lab.path(`/questions/${body.id}/answers`))
        .send(reply)
    const answered = await Promise.all([reply2(), reply2()])
    expect(answered.map(({ status }) => status).sort()).toEqual([200, 201])
    expect(answered[0]!.body.answers).toHaveLength(1)
  })

  it('answered by two at once has both answers, and waits no more', async () => {
    const lab = await makeLaboratory(testApp)
    const { id: projectId } = await makeProject(testApp, lab)
    const { body: asked } = await ask(lab, { projectId }).expect(201)
    const held = { sql: 'select from question where id = $1 for update', values: [asked.id] }
    const [first, second] = await atOnce(
      testApp.ownerUrl,
      held,
      async () => answer(lab, asked.id, 'On Friday', 'engineer'),
      async () => answer(lab, asked.id, 'By the end of the week', 'manager'),
    )
    expect([first, second]).toMatchObject([{ value: { status: 201 } }, { value: { status: 201 } }])
    expect(await open(lab)).toEqual([])
    const [project] = await own(lab)
    expect(project!.questions[0]!.answers.map(({ text }) => text).toSorted()).toEqual([
      'By the end of the week',
      'On Friday',
    ])
  })
})
