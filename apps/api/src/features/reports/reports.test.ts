import type { Report } from '@curebook/contract/reports'
import { createHash } from 'node:crypto'
import request from 'supertest'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import {
  acknowledgeAll,
  makeApprovedDesign,
  makeTestedDesign,
  oneDisc,
  recommend,
  sign,
} from '../../../../../tests/support/factories/tested-design.ts'
import { readPdf } from '../../../../../tests/support/pdf-text.ts'

vi.setConfig({ testTimeout: 180_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z', config: { publicUrl: 'https://ternhollow.example' } })
})
afterAll(() => testApp.close())

const approved = async (lab: TestLaboratory, machines?: string) =>
  (await makeApprovedDesign(testApp, lab, { weighings: oneDisc, machines })).design
const anIssue = ({ id, revisionId }: { id: string; revisionId: string }, changes: object = {}) => ({
  id: newId(),
  designId: id,
  revisionId,
  ...changes,
})
type Who = 'engineer' | 'manager'
const ask = (lab: TestLaboratory, body: object, who: Who = 'engineer', url?: string) =>
  lab.as(who, url).post(lab.path('/report-previews')).send(body)
/** Looks at the report as it would be, then issues it; answers what the last of the two says. */
const release = async (lab: TestLaboratory, body: object, who: Who = 'engineer', url?: string) => {
  const shown = await ask(lab, body, who, url)
  if (shown.status >= 300) return shown
  return lab.as(who, url).post(lab.path('/reports')).send({ id: newId(), previewId: shown.body.id })
}
const issue = async (lab: TestLaboratory, body: object): Promise<Report> => {
  const answer = await release(lab, body)
  expect([answer.status, answer.body.detail]).toEqual([201, undefined])
  return answer.body
}

async function pdfOf(lab: TestLaboratory, id: string): Promise<{ bytes: Buffer; text: string; code: string }> {
  const { body: bytes, headers } = await lab
    .as('technician')
    .get(lab.path(`/reports/${id}/pdf`))
    .buffer(true)
    .parse((response, done) => {
      const parts: Buffer[] = []
      response.on('data', (part: Buffer) => parts.push(part))
      response.on('end', () => done(null, Buffer.concat(parts)))
    })
    .expect(200)
  expect(headers['content-type']).toBe('application/pdf')
  const { text } = readPdf(bytes as Buffer)
  const [code = ''] = /(?:[A-HJ-NP-Z2-9]{4}-){5}[A-HJ-NP-Z2-9]{4}/.exec(text) ?? []
  return { bytes: bytes as Buffer, text, code }
}
const check = async (code: string) => (await request(testApp.url).get(`/api/check/${code}`).expect(200)).body

describe('issuing a report', () => {
  it('keeps the PDF as bytes under their digest, names what was signed, and gives the results as a table', async () => {
    const lab = await makeLaboratory(testApp)
    const design = await approved(lab)
    const report = await issue(lab, anIssue(design))
    expect(report).toMatchObject({
      amendment: 0,
      revision: 1,
      approvedBy: 'Person engineer',
      state: 'current',
      replacedBy: null,
      recordChanged: false,
    })
    expect(report.number).toBe(`${lab.shortName.toUpperCase()}-2026-0001`)

    const { bytes, text, code } = await pdfOf(lab, report.id)
    expect(bytes.subarray(0, 5).toString()).toBe('%PDF-')
    const { sha256, kept, name } = await testApp.services.laboratory.inLaboratory(
      lab.people.engineer.actor,
      async ({ prisma }) => {
        const row = await prisma.report.findFirstOrThrow({ where: { labId: lab.labId, id: report.id } })
        const file = await prisma.attachment.findFirstOrThrow({ where: { labId: lab.labId, id: row.pdfId } })
        return {
          sha256: Buffer.from(row.pdfSha256).toString('hex'),
          kept: Buffer.from(file.sha256).toString('hex'),
          name: file.name,
        }
      },
    )
    const digest = createHash('sha256').update(bytes).digest('hex')
    expect([sha256, kept]).toEqual([digest, digest])
    expect(name).toMatch(/^Overlay-2026_LAB-.*-2026-0001_2026-03-\d\d\.pdf$/)
    expect(text).toContain(report.number)
    expect(text).toContain('Person engineer')
    expect(text).toContain('Marrowdale County Roads')
    expect(text.replaceAll(' ', '')).toContain(report.digest)
    expect(code).not.toBe('')
    // Asked again, the same bytes come.
    expect((await pdfOf(lab, report.id)).bytes.equals(bytes)).toBe(true)

    const csv = await lab
      .as('technician')
      .get(lab.path(`/reports/${report.id}/csv`))
      .expect(200)
    expect(csv.headers['content-type']).toContain('text/csv')
    expect(csv.text).toContain('394.8')
    expect(csv.text.split('\r\n').length).toBeGreaterThan(2)
    const signed = await lab
      .as('auditor')
      .get(lab.path(`/reports/${report.id}/content`))
      .expect(200)
    // Anybody who has the file makes the digest that is printed on the report.
    expect(createHash('sha256').update(signed.text).digest('hex')).toBe(report.digest)
    expect(JSON.parse(signed.text)).toMatchObject({ kind: 'revision', batchExample: { calculation: { schema: 1 } } })
    expect(await testApp.services.ledger.verify(lab.people.manager.actor, {})).toMatchObject({
      whole: true,
      firstBreak: null,
    })
  })

  it('is refused of what is not approved, of another design’s revision, and of a revision that is not there', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    const open = await ask(lab, anIssue(design)).expect(409)
    expect(open.body.detail).toContain('is not approved')
    await ask(lab, anIssue({ id: newId(), revisionId: design.revisionId })).expect(404)
    await ask(lab, anIssue({ id: design.id, revisionId: newId() })).expect(404)
    const unseen = { id: newId(), previewId: newId() }
    await lab.as('engineer').post(lab.path('/reports')).send(unseen).expect(404)
    await lab.as('technician').post(lab.path('/reports')).send(unseen).expect(403)
    await lab.as('technician').post(lab.path('/report-previews')).send(anIssue(design)).expect(403)
  })

  it('is the same report again for the same message, and a conflict for another under its id', async () => {
    const lab = await makeLaboratory(testApp)
    const design = await approved(lab)
    const { body: preview } = await ask(lab, anIssue(design)).expect(201)
    const input = { id: newId(), previewId: preview.id }
    const { body: report } = await lab.as('engineer').post(lab.path('/reports')).send(input).expect(201)
    expect((await lab.as('engineer').post(lab.path('/reports')).send(input).expect(200)).body.id).toBe(report.id)
    await lab
      .as('engineer')
      .post(lab.path('/reports'))
      .send({ ...input, previewId: newId() })
      .expect(409)
    expect(
      (await testApp.services.reports.list(lab.people.engineer.actor, { designId: design.id })).items,
    ).toHaveLength(1)
  })

  it('happens once when two issue the first report of a design at the same moment', async () => {
    const lab = await makeLaboratory(testApp)
    const design = await approved(lab)
    const another = await testApp.startAnother()
    try {
      const remark = { reason: 'Sent by post as well' }
      const previews = [await ask(lab, anIssue(design)), await ask(lab, anIssue(design, remark), 'manager')]
      const [first, second] = previews.map(({ body }) => ({ id: newId(), previewId: body.id }))
      const answers = await Promise.all([
        lab.as('engineer').post(lab.path('/reports')).send(first),
        lab.as('manager', another.url).post(lab.path('/reports')).send(second),
      ])
      expect(answers.map(({ status }) => status).sort()).toEqual([201, 412])
      expect(
        (await testApp.services.reports.list(lab.people.engineer.actor, { designId: design.id })).items,
      ).toHaveLength(1)
      const { body: amendment } = await ask(lab, anIssue(design, { reason: 'Address corrected' })).expect(201)
      const amend = (who: Who, url?: string) =>
        lab.as(who, url).post(lab.path('/reports')).send({ id: newId(), previewId: amendment.id })
      const amended = await Promise.all([amend('engineer'), amend('manager', another.url)])
      expect(amended.map(({ status }) => status).sort()).toEqual([201, 409])
      expect(amended.find(({ status }) => status === 409)!.body.detail).toContain('was issued from this preview')
    } finally {
      await another.close()
    }
  })
})

describe('the numbers of reports', () => {
  it('have no gap when reports of several designs are issued at the same moment through two servers', async () => {
    const lab = await makeLaboratory(testApp)
    const designs = [await approved(lab), await approved(lab, '2')]
    const another = await testApp.startAnother()
    try {
      // Both are shown with the same number; whoever comes second has an old preview, and is shown the next number.
      const shown = await Promise.all([ask(lab, anIssue(designs[0]!)), ask(lab, anIssue(designs[1]!), 'manager')])
      expect(shown.map(({ body }) => body.number.slice(-9))).toEqual(['2026-0001', '2026-0001'])
      const answers = await Promise.all([
        lab.as('engineer').post(lab.path('/reports')).send({ id: newId(), previewId: shown[0]!.body.id }),
        lab.as('manager', another.url).post(lab.path('/reports')).send({ id: newId(), previewId: shown[1]!.body.id }),
      ])
      expect(answers.map(({ status }) => status).sort()).toEqual([201, 412])
      const late = answers.findIndex(({ status }) => status === 412)
      expect(answers[late]!.body.detail).toMatch(/2026-0001/)
      const issued = [answers[1 - late]!.body as Report, await issue(lab, anIssue(designs[late]!))]
      expect(issued.map(({ number }) => number.slice(-9)).sort()).toEqual(['2026-0001', '2026-0002'])
      // Each says the number that it has.
      for (const { id, number } of issued) expect((await pdfOf(lab, id)).text).toContain(number)
      const next = testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
        prisma.counter.findFirst({ where: { labId: lab.labId, name: 'report' }, select: { value: true } }),
      )
      expect(await next).toEqual({ value: 2n })
    } finally {
      await another.close()
    }
  })
})

describe('the list of reports', () => {
  it('is that of one design, of one project, or of the laboratory', async () => {
    const lab = await makeLaboratory(testApp)
    const [first, second] = [await approved(lab), await approved(lab, '2')]
    const reports = [await issue(lab, anIssue(first)), await issue(lab, anIssue(second))]
    const listed = async (query: object, to = lab) =>
      (await to.as('technician').get(to.path('/reports')).query(query).expect(200)).body.items.map(
        ({ id }: Report) => id,
      )
    expect(first.projectId).not.toBe(second.projectId)
    expect(await listed({ projectId: first.projectId })).toEqual([reports[0]!.id])
    expect(await listed({ designId: second.id })).toEqual([reports[1]!.id])
    expect(await listed({ projectId: first.projectId, designId: second.id })).toEqual([])
    expect(await listed({})).toHaveLength(2)
    expect(await listed({ projectId: first.projectId }, await makeLaboratory(testApp))).toEqual([])
    await lab.as('client').get(lab.path('/reports')).query({ projectId: first.projectId }).expect(403)
  })
})

describe('an amendment', () => {
  it('needs a reason, names the report that it replaces, and the one replaced says so', async () => {
    const lab = await makeLaboratory(testApp)
    const design = await approved(lab)
    const first = await issue(lab, anIssue(design))
    const silent = await ask(lab, anIssue(design)).expect(409)
    expect(silent.body.errors[0].path).toBe('reason')

    const second = await issue(lab, anIssue(design, { reason: 'Address of the client corrected' }))
    expect(second).toMatchObject({ number: first.number, amendment: 1, state: 'current' })
    const third = await issue(lab, anIssue(design, { reason: 'Copy added' }))
    const { text } = await pdfOf(lab, second.id)
    expect(text).toContain(`Amendment to report ${first.number}`)
    expect(text).toContain(
      `This report ${first.number}, amendment 1 is complete in itself and replaces report ${first.number},`,
    )
    expect(text).toContain('Address of the client corrected')
    expect((await pdfOf(lab, third.id)).text).toContain(`replaces report ${first.number}, amendment 1,`)

    const { body } = await lab
      .as('auditor')
      .get(lab.path(`/reports?designId=${design.id}`))
      .expect(200)
    expect(body.items.map(({ amendment, state, replacedBy }: Report) => [amendment, state, replacedBy])).toEqual([
      [2, 'current', null],
      [1, 'superseded', `${first.number}, amendment 2`],
      [0, 'superseded', `${first.number}, amendment 1`],
    ])
  })

  it('comes from a later revision, after which the earlier one is reported no more', async () => {
    const lab = await makeLaboratory(testApp)
    const design = await approved(lab)
    const first = await issue(lab, anIssue(design))
    const engineer = lab.people.engineer.actor
    const { value } = await testApp.services.designs.startRevision(engineer, design.id, {
      id: newId(),
      reason: 'Tolerance narrowed',
    })
    await recommend(testApp, lab, design.id, { toleranceResidualPercent: '0.3' })
    await acknowledgeAll(testApp, lab, design.id)
    await sign(testApp, lab, design.id, 'check')
    await sign(testApp, lab, design.id, 'approve')
    const second = await issue(lab, anIssue({ id: design.id, revisionId: value.revisionId }))
    expect(second).toMatchObject({ number: first.number, amendment: 1, revision: 2 })
    expect((await pdfOf(lab, second.id)).text).toContain('takes the place of the revision reported before')
    const late = await ask(lab, anIssue(design, { reason: 'The first one again' })).expect(409)
    expect(late.body.detail).toContain('Revision 2 is reported already')
  })
})

describe('a record that changes after approval', () => {
  it('is told beside the report, whose bytes stay', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeApprovedDesign(testApp, lab, { weighings: oneDisc })
    const report = await issue(lab, anIssue(design))
    const { bytes } = await pdfOf(lab, report.id)
    const technician = lab.people.technician.actor
    const { readings } = await testApp.services.bench.view.one(technician, specimens[0]!.testId)
    await testApp.services.bench.readings.correct(
      technician,
      readings.find(({ stepKey }) => stepKey === 'weigh-after')!.id,
      { id: newId(), typed: '749.0', reason: 'misread', time: timeNow(testApp) },
    )
    const { items } = await testApp.services.reports.list(lab.people.engineer.actor, { designId: design.id })
    expect(items[0]).toMatchObject({ recordChanged: true, digest: report.digest })
    expect((await pdfOf(lab, report.id)).bytes.equals(bytes)).toBe(true)
  })
})

describe('a time that is put right after approval', () => {
  it('is told beside the report too', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeApprovedDesign(testApp, lab, { weighings: oneDisc })
    await issue(lab, anIssue(design))
    const technician = lab.people.technician.actor
    const { testId } = specimens[0]!
    const { events } = await testApp.services.bench.view.one(technician, testId)
    const cure = events.find(({ stepKey, kind }) => stepKey === 'cure' && kind === 'start')!
    const changed = async () =>
      (await testApp.services.reports.list(lab.people.engineer.actor, { designId: design.id })).items[0]!.recordChanged
    expect(await changed()).toBe(false)
    const eventAt = new Date(Date.parse(cure.eventAt) + 60_000).toISOString()
    await lab
      .as('technician')
      .post(lab.path(`/tests/${testId}/acts/${cure.id}/corrections`))
      .send({
        id: newId(),
        reason: 'Wrong clock',
        time: { ...timeNow(testApp), eventAt, eventFrom: 'at', note: 'Sheet' },
      })
      .expect(200)
    expect(await changed()).toBe(true)
  })
})

describe('the public check', () => {
  it('knows a current report by its code however it is typed, a superseded one, and says of any other that there is none', async () => {
    const lab = await makeLaboratory(testApp)
    const design = await approved(lab)
    const first = await issue(lab, anIssue(design))
    const { code, text } = await pdfOf(lab, first.id)
    expect(text.replaceAll(' ', '')).toContain(`https://ternhollow.example/check/${code}`)
    const genuine = await check(code)
    expect(genuine).toMatchObject({
      genuine: true,
      state: 'current',
      number: first.number,
      digest: first.digest,
      laboratory: expect.stringContaining('Laboratory'),
    })
    expect(await check(code.toLowerCase().replaceAll('-', ''))).toEqual(genuine)
    expect(JSON.stringify(genuine)).not.toContain('394.8')

    await issue(lab, anIssue(design, { reason: 'Copy added' }))
    const superseded = await check(code)
    expect(superseded).toMatchObject({ genuine: true, state: 'superseded' })
    expect(superseded.sentence).toContain(`${first.number}, amendment 1`)
    expect(await check(`${code.slice(0, -1)}${code.endsWith('A') ? 'B' : 'A'}`)).toMatchObject({
      genuine: false,
      state: 'unknown',
      number: null,
      digest: null,
    })
  })
})
