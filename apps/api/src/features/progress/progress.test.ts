import type { ClientProjects } from '@curebook/contract/reports'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeProject } from '../../../../../tests/support/factories/design.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'
import { issueReport } from '../../../../../tests/support/factories/report.ts'
import {
  acknowledgeAll,
  makeTestedDesign,
  oneDisc,
  recommend,
  sign,
} from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 180_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

const progress = async (lab: TestLaboratory, who: PersonKey = 'client'): Promise<ClientProjects> =>
  (await lab.as(who).get(lab.path('/progress')).expect(200)).body

it('tells a client in plain words how far the project is, from reception to the report', async () => {
  const lab = await makeLaboratory(testApp)
  await makeProject(testApp, lab, { name: 'Ring road' })
  expect((await progress(lab)).projects).toMatchObject([
    { name: 'Ring road', status: 'Received', testsDone: 0, testsTotal: 0, reports: [] },
  ])

  const { design } = await makeTestedDesign(testApp, lab, {
    weighings: {
      'wet-track-abrasion-1h': {
        '12': [
          ['762.0', '750.0'],
          ['762.0', '751.0'],
        ],
      },
    },
    skip: ({ replicate }) => replicate === 2,
  })
  const own = async () => (await progress(lab)).projects.find(({ id }) => id === design.projectId)!
  expect(await own()).toMatchObject({ status: 'Tests under way', testsDone: 1, testsTotal: 2 })
  // Ids and times apart: their digits are by chance anything.
  const answer = JSON.stringify(await progress(lab)).replace(
    /[0-9a-f]{8}(-[0-9a-f]{4,12}){4}|\d{4}-\d\d-\d\dT[^"]+/g,
    '',
  )
  // No value of any test, no code of a specimen, nobody of the laboratory.
  for (const secret of ['750', '762', '394.8', 'Person technician', '12-1']) expect(answer).not.toContain(secret)
})

it('shows the client’s own reports with their PDF, and neither to another client', async () => {
  const lab = await makeLaboratory(testApp)
  const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
  const of = async (who: PersonKey) => (await progress(lab, who)).projects
  await recommend(testApp, lab, design.id)
  expect((await of('client'))[0]).toMatchObject({ status: 'In review', reports: [] })
  await acknowledgeAll(testApp, lab, design.id)
  await sign(testApp, lab, design.id, 'check')
  await sign(testApp, lab, design.id, 'approve')
  expect((await of('client'))[0]).toMatchObject({ status: 'Approved', reports: [] })
  const report = await issueReport(testApp, lab, {
    designId: design.id,
    revisionId: design.revisionId,
  })

  const [project] = await of('client')
  expect(design.name).not.toBe(project!.name)
  expect(project).toMatchObject({
    status: 'Report issued',
    reports: [{ id: report.id, number: report.number, designName: design.name, state: 'current', replacedBy: null }],
  })
  const pdf = await lab
    .as('client')
    .get(lab.path(`/own-reports/${report.id}/pdf`))
    .expect(200)
  expect(pdf.headers['content-type']).toBe('application/pdf')

  expect(await of('otherClient')).toEqual([])
  await lab
    .as('otherClient')
    .get(lab.path(`/own-reports/${report.id}/pdf`))
    .expect(404)
  await lab
    .as('client')
    .get(lab.path(`/reports/${report.id}/pdf`))
    .expect(403)
  await lab
    .as('client')
    .get(lab.path(`/reports/${report.id}/csv`))
    .expect(403)

  const elsewhere = await makeLaboratory(testApp)
  await elsewhere
    .as('client')
    .get(elsewhere.path(`/own-reports/${report.id}/pdf`))
    .expect(404)
  await elsewhere
    .as('client')
    .get(lab.path(`/own-reports/${report.id}/pdf`))
    .expect(404)

  const amended = await issueReport(testApp, lab, {
    designId: design.id,
    revisionId: design.revisionId,
    reason: 'Copy added',
  })
  expect((await of('client'))[0]!.reports).toMatchObject([
    { id: amended.id, state: 'current' },
    { id: report.id, state: 'superseded', replacedBy: `${report.number}, amendment 1` },
  ])
})
