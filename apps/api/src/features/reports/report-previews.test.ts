import type { Report, ReportPreview } from '@curebook/contract/reports'
import { createHash } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { issueReport } from '../../../../../tests/support/factories/report.ts'
import {
  makeApprovedDesign,
  makeTestedDesign,
  oneDisc,
  recommend,
} from '../../../../../tests/support/factories/tested-design.ts'
import { readPdf } from '../../../../../tests/support/pdf-text.ts'

vi.setConfig({ testTimeout: 180_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

const approved = async (lab: TestLaboratory, machines?: string) =>
  (await makeApprovedDesign(testApp, lab, { weighings: oneDisc, machines })).design
type Approved = { id: string; revisionId: string }
const preview = async (
  lab: TestLaboratory,
  { id, revisionId }: Approved,
  more: object = {},
): Promise<ReportPreview> => {
  const body = { id: newId(), designId: id, revisionId, ...more }
  return (await lab.as('engineer').post(lab.path('/report-previews')).send(body).expect(201)).body
}
const issue = (lab: TestLaboratory, previewId: string) =>
  lab.as('engineer').post(lab.path('/reports')).send({ id: newId(), previewId })
async function fileAt(lab: TestLaboratory, path: string): Promise<{ file: Buffer; headers: Record<string, string> }> {
  const { body, headers } = await lab
    .as('engineer')
    .get(lab.path(path))
    .buffer(true)
    .parse((response, done) => {
      const parts: Buffer[] = []
      response.on('data', (part: Buffer) => parts.push(part))
      response.on('end', () => done(null, Buffer.concat(parts)))
    })
    .expect(200)
  return { file: body, headers }
}
const hash = (file: Buffer) => createHash('sha256').update(file).digest('hex')

describe('a preview', () => {
  it('is the file that is released, byte for byte', async () => {
    const lab = await makeLaboratory(testApp)
    const shown = await preview(lab, await approved(lab))
    expect(shown).toMatchObject({ state: 'ready', amendment: 0, revision: 1, reason: null })
    const { file, headers } = await fileAt(lab, `/report-previews/${shown.id}/pdf`)
    expect(headers['content-disposition']).toContain('not-released')
    expect(headers['content-security-policy']).toContain("frame-ancestors 'self'")
    expect(headers['x-frame-options']).toBe('SAMEORIGIN')
    expect([hash(file), file.length]).toEqual([shown.fileDigest, shown.bytes])
    expect(readPdf(file).text).toContain(shown.number)

    const { body: report } = (await issue(lab, shown.id).expect(201)) as { body: Report }
    const released = await fileAt(lab, `/reports/${report.id}/pdf`)
    expect(released.file.equals(file)).toBe(true)
    expect([report.fileDigest, report.digest]).toEqual([hash(file), shown.digest])
    const after = (await lab.as('engineer').get(lab.path(`/report-previews/${shown.id}`))).body
    expect(after).toMatchObject({ state: 'issued', sentence: expect.stringContaining(report.number) })
    const again = await issue(lab, shown.id).expect(409)
    expect(again.body.detail).toContain('was issued from this preview')
  })

  it('takes no number, is the same again for the same message, and a conflict for another under its id', async () => {
    const lab = await makeLaboratory(testApp)
    const { id, revisionId } = await approved(lab)
    const body = { id: newId(), designId: id, revisionId }
    const send = (sent: object) => lab.as('engineer').post(lab.path('/report-previews')).send(sent)
    const twice = await Promise.all([send(body), send(body)])
    expect(twice.map(({ status }) => status).sort()).toEqual([200, 201])
    expect(twice[0]!.body.fileDigest).toBe(twice[1]!.body.fileDigest)
    await send({ ...body, reason: 'Another' }).expect(409)
    const counter = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
      prisma.counter.findFirst({ where: { labId: lab.labId, name: 'report' } }),
    )
    expect(counter).toBeNull()
  })

  it('of the same is the one that is ready, asked again or by two at once through two servers', async () => {
    const lab = await makeLaboratory(testApp)
    const { id, revisionId } = await approved(lab)
    const another = await testApp.startAnother()
    const send = (more: object = {}, url?: string) =>
      lab
        .as('engineer', url)
        .post(lab.path('/report-previews'))
        .send({ id: newId(), designId: id, revisionId, ...more })
    try {
      const both = await Promise.all([send(), send({}, another.url)])
      expect(both.map(({ status }) => status).sort()).toEqual([200, 201])
      const { body: again } = await send().expect(200)
      expect(again).toEqual(both[0].body)
      expect(again).toEqual(both[1].body)
      const { body: other } = await send({ reason: 'Copy added' }).expect(201)
      expect(other.id).not.toBe(again.id)
      const kept = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, async ({ prisma }) => ({
        previews: await prisma.reportPreview.count(),
        told: await prisma.ledgerEntry.count({ where: { action: 'report:preview' } }),
        issued: await prisma.ledgerEntry.count({ where: { action: 'report:issue' } }),
      }))
      expect(kept).toEqual({ previews: 2, told: 2, issued: 0 })
      testApp.clock.advance({ days: 1 })
      expect(
        (
          await testApp.services.reports.previews.create(lab.people.engineer.actor, {
            id: newId(),
            designId: id,
            revisionId,
          })
        ).created,
      ).toBe(true)
    } finally {
      await another.close()
    }
  })

  it('is out of date once another report has its number, and says which it would be now', async () => {
    const lab = await makeLaboratory(testApp)
    const [first, second] = [await approved(lab), await approved(lab, '2')]
    const shown = await preview(lab, first)
    await issueReport(testApp, lab, { designId: second.id, revisionId: second.revisionId })
    const read = (
      await lab
        .as('manager')
        .get(lab.path(`/report-previews/${shown.id}`))
        .expect(200)
    ).body
    expect(read.state).toBe('out-of-date')
    const refused = await issue(lab, shown.id).expect(412)
    expect(refused.body).toMatchObject({ code: 'changed-meanwhile', detail: read.sentence })
    expect(read.sentence).toContain('2026-0002')
    const fresh = await preview(lab, first)
    expect(fresh.number).toMatch(/2026-0002$/)
    await issue(lab, fresh.id).expect(201)
  })

  it('is out of date on the next day, since the day of issue is printed on it', async () => {
    const lab = await makeLaboratory(testApp)
    const shown = await preview(lab, await approved(lab))
    testApp.clock.advance({ days: 1 })
    const issuing = testApp.services.reports.issue(lab.people.engineer.actor, { id: newId(), previewId: shown.id })
    await expect(issuing).rejects.toMatchObject({
      code: 'changed-meanwhile',
      message: expect.stringMatching(/It is dated 2026-\d\d-\d\d, and a report that is issued now bears/),
    })
  })

  it('is shown to nobody who may not issue, least of all to the client', async () => {
    const lab = await makeLaboratory(testApp)
    const elsewhere = await makeLaboratory(testApp)
    const shown = await preview(lab, await approved(lab))
    for (const path of [`/report-previews/${shown.id}`, `/report-previews/${shown.id}/pdf`]) {
      for (const who of ['client', 'technician', 'auditor'] as const) await lab.as(who).get(lab.path(path)).expect(403)
      await elsewhere.as('engineer').get(elsewhere.path(path)).expect(404)
      await elsewhere.as('engineer').get(lab.path(path)).expect(404)
    }
    await lab
      .as('client')
      .get(lab.path(`/own-reports/${shown.id}/pdf`))
      .expect(404)
  })
})

describe('before the approval', () => {
  it('the report is read as it would be, named a draft, without number, signatures and check code', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    await recommend(testApp, lab, design.id)
    const { text } = readPdf((await fileAt(lab, `/designs/${design.id}/draft-report`)).file)
    expect(text).toContain('draft, not approved')
    expect(text).toContain('Marrowdale County Roads')
    expect(text).not.toMatch(/(?:[A-HJ-NP-Z2-9]{4}-){5}/)
    expect(text).not.toContain('Signed at')
    await lab
      .as('client')
      .get(lab.path(`/designs/${design.id}/draft-report`))
      .expect(403)
  })
})
