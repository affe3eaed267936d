import type { PanelRow } from '@curebook/contract/range'
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import {
  acknowledgeAll,
  makeTestedDesign,
  oneDisc,
  recommend,
  sign,
} from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const mixTime = (more: object = {}) => ({
  id: newId(),
  limitKey: 'mix-time',
  typed: '171',
  unit: 's',
  madeBy: 'entered',
  method: 'TB-113',
  edition: '2017',
  observedBy: 'B. Person',
  instrument: 'Stopwatch 2',
  observedOn: '2026-03-02',
  ...more,
})
const post = (id: string, body: object, url?: string) =>
  lab
    .as('technician', url)
    .post(lab.path(`/designs/${id}/panel-results`))
    .send(body)
const rangeOf = async (id: string) =>
  (
    await lab
      .as('engineer')
      .get(lab.path(`/designs/${id}/range`))
      .expect(200)
  ).body
const rowOf = async (id: string, key = 'mix-time'): Promise<PanelRow> =>
  (await rangeOf(id)).panel.find((row: PanelRow) => row.key === key)

describe('a result of the panel that no method here computes', () => {
  it('is kept as typed with what it was found by, judged by its limit, and says that it was entered', async () => {
    const { id } = await makeDesign(testApp, lab)
    expect((await rowOf(id)).verdict).toBe('not tested')
    const body = mixTime({ remark: 'creamy' })
    const answer = await post(id, body).expect(201)
    expect(answer.body).toMatchObject({
      typed: '171',
      value: '171',
      unit: 's',
      madeBy: 'entered',
      method: 'TB-113',
      edition: '2017',
      source: 'Own test by hand',
      observedBy: 'B. Person',
      remark: 'creamy',
      attachment: null,
      revision: 1,
      by: { name: 'Person technician' },
      supersedes: null,
    })
    await post(id, body).expect(200, answer.body)
    const row = await rowOf(id)
    // 171 − 120
    expect(row).toMatchObject({ verdict: 'pass', value: '171', unit: 's', margin: '51', entered: answer.body })
    expect(row.sentence).toContain('Entered, not computed here.')
    const { overall, enterable } = await rangeOf(id)
    expect(overall).not.toContain('mix time')
    expect(overall).toContain('The panel is not complete.')
    expect(enterable).toContainEqual({ key: 'mix-time', units: ['s', 'min', 'h', 'd'] })
    expect(enterable.map(({ key }: { key: string }) => key)).not.toContain('sand-adhesion')
  })

  it('is judged by the specification: on the limit passes, below it fails', async () => {
    const { id } = await makeDesign(testApp, lab)
    const cohesion = (typed: string, more: object = {}) =>
      mixTime({ limitKey: 'cohesion-60-min', unit: 'kg·cm', typed, ...more })
    const { body } = await post(id, cohesion('20.0')).expect(201)
    expect(await rowOf(id, 'cohesion-60-min')).toMatchObject({ verdict: 'pass', value: '20.0', margin: '0' })
    await post(id, cohesion('19.5', { supersedes: { id: body.id, reason: 'Third biscuit misread' } })).expect(201)
    expect(await rowOf(id, 'cohesion-60-min')).toMatchObject({ verdict: 'fail', margin: '-0.5' })
    expect((await rangeOf(id)).overall).toContain('Does not meet its limit: cohesion at 60 min.')
  })

  it('converts where the units have an exact relation, and refuses others with what would be right', async () => {
    const { id } = await makeDesign(testApp, lab)
    await post(id, mixTime({ typed: '2,85', unit: 'min' })).expect(201)
    // 2.85 × 60
    expect(await rowOf(id)).toMatchObject({
      value: '171',
      unit: 's',
      verdict: 'pass',
      entered: { typed: '2,85', unit: 'min' },
    })
    const torque = mixTime({ limitKey: 'cohesion-30-min', typed: '1.23', unit: 'N·m' })
    await post(id, torque).expect(201)
    // 1.23 ÷ 0.0980665
    const { value, verdict } = await rowOf(id, 'cohesion-30-min')
    expect(Number(value)).toBeCloseTo(12.54251, 5)
    expect(verdict).toBe('pass')
    const wrong = await post(id, mixTime({ limitKey: 'wet-stripping', typed: '95', unit: 's' })).expect(400)
    expect(wrong.body.errors).toEqual([
      { path: 'unit', message: 'The limit stands in %, and a value in s does not convert into it: give it in %.' },
    ])
  })

  it('is refused where this laboratory computes the property, or the specification asks for none such', async () => {
    const { id } = await makeDesign(testApp, lab)
    const computed = await post(id, mixTime({ limitKey: 'sand-adhesion', typed: '400', unit: 'g/m²' })).expect(422)
    expect(computed.body.detail).toContain('is computed here from readings')
    const held = await post(id, mixTime({ limitKey: 'emulsion-residue', typed: '63', unit: '%' })).expect(422)
    expect(held.body.detail).toContain('enter it there as the residue of the emulsion')
    const paths = async (more: object) =>
      (await post(id, mixTime(more)).expect(400)).body.errors.map(({ path }: { path: string }) => path)
    expect(await paths({ limitKey: 'colour' })).toEqual(['limitKey'])
    for (const typed of ['about 170', '171 g', '-3']) expect(await paths({ typed })).toEqual(['typed'])
    expect(await paths({ observedOn: '2026-03-03' })).toEqual(['observedOn'])
    expect(await paths({ method: '' })).toEqual(['method'])
    expect(await paths({ observedBy: '' })).toEqual(['observedBy'])
    expect(await paths({ madeBy: 'outside', source: 'Report 12' })).toEqual(['laboratoryName'])
    expect(await paths({ madeBy: 'customer' })).toEqual(['source'])
    expect(await paths({ attachmentId: newId() })).toEqual(['attachmentId'])
  })

  it('carries its file, and never one of another laboratory', async () => {
    const { id } = await makeDesign(testApp, lab)
    const csv = {
      name: 'cups.csv',
      mediaType: 'text/csv' as const,
      base64: Buffer.from('cup;s\n3;171\n').toString('base64'),
    }
    const own = await testApp.services.attachments.create(lab.people.technician.actor, { ...csv, id: newId() })
    const neighbour = await makeLaboratory(testApp)
    const foreign = await testApp.services.attachments.create(neighbour.people.technician.actor, {
      ...csv,
      id: newId(),
    })
    await post(id, mixTime({ attachmentId: foreign.value.id })).expect(400)
    const { body } = await post(id, mixTime({ attachmentId: own.value.id })).expect(201)
    expect(body.attachment).toEqual({
      id: own.value.id,
      name: 'cups.csv',
      mediaType: 'text/csv',
      sha256: own.value.sha256,
    })
  })

  it('is replaced by a further one with a reason; of two at once through two servers one stands', async () => {
    const { id } = await makeDesign(testApp, lab)
    const other = await testApp.startAnother()
    try {
      const firsts = await Promise.all([post(id, mixTime()), post(id, mixTime({ typed: '172' }), other.url)])
      expect(firsts.map(({ status }) => status).toSorted()).toEqual([201, 409])
      const first = firsts.find(({ status }) => status === 201)!.body
      const supersedes = { id: first.id, reason: 'Stopwatch started late' }
      const seconds = await Promise.all([
        post(id, mixTime({ typed: '168', supersedes })),
        post(id, mixTime({ typed: '169', supersedes }), other.url),
      ])
      expect(seconds.map(({ status }) => status).toSorted()).toEqual([201, 409])
      const { entered } = await rowOf(id)
      expect(entered!.supersedes).toEqual({
        id: first.id,
        typed: first.typed,
        unit: 's',
        reason: 'Stopwatch started late',
      })
    } finally {
      await other.close()
    }
    const verdict = await testApp.services.ledger.verify(lab.people.manager.actor, {})
    // Residue, moisture, two mix times, and five samples received.
    expect(verdict).toMatchObject({ whole: true, rowsCompared: 9 })
  })

  it('says nothing of another content than the recommended one', async () => {
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    await post(design.id, mixTime({ atEmulsionPercent: '12' })).expect(201)
    await post(
      design.id,
      mixTime({ limitKey: 'wet-stripping', typed: '95', unit: '%', atEmulsionPercent: '10' }),
    ).expect(201)
    expect(await rowOf(design.id)).toMatchObject({ verdict: 'pass', at: 'at 12 % emulsion' })
    await recommend(testApp, lab, design.id)
    expect(await rowOf(design.id)).toMatchObject({ verdict: 'pass', at: 'at 12 % emulsion' })
    const elsewhere = await rowOf(design.id, 'wet-stripping')
    expect(elsewhere).toMatchObject({ verdict: 'undecided', margin: null })
    expect(elsewhere.sentence).toContain('found at 10 % emulsion, and 12 % is recommended')
  })

  it('counts for a new revision too, which may replace it; the approved one keeps what stood', async () => {
    const { id, revisionId } = await makeDesign(testApp, lab)
    const { body: first } = await post(id, mixTime()).expect(201)
    await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
      prisma.designRevision.updateMany({ where: { labId: lab.labId, id: revisionId }, data: { state: 'approved' } }),
    )
    await testApp.services.designs.startRevision(lab.people.engineer.actor, id, {
      id: newId(),
      reason: 'Other additive',
    })
    expect((await rowOf(id)).entered).toEqual(first)
    await post(id, mixTime({ typed: '150' })).expect(409)
    const second = mixTime({ typed: '150', supersedes: { id: first.id, reason: 'Other additive' } })
    const { body } = await post(id, second).expect(201)
    // A chain stays within its revision.
    expect(body).toMatchObject({ revision: 2, supersedes: null })
    expect((await rowOf(id)).value).toBe('150')
    const { body: approved } = await lab
      .as('engineer')
      .get(lab.path(`/designs/${id}/range?revision=1`))
      .expect(200)
    expect(approved.panel.find(({ key }: PanelRow) => key === 'mix-time').value).toBe('171')
  })

  it('is taken until the revision is approved, and by no auditor', async () => {
    const { id, revisionId } = await makeDesign(testApp, lab)
    const setState = (state: string) =>
      testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
        prisma.designRevision.updateMany({ where: { labId: lab.labId, id: revisionId }, data: { state } }),
      )
    for (const state of ['sent-back', 'in-review']) {
      await setState(state)
      const { entered } = await rowOf(id)
      await post(id, mixTime(entered ? { supersedes: { id: entered.id, reason: 'Timed again' } } : {})).expect(201)
    }
    await setState('approved')
    const { body } = await post(id, mixTime()).expect(409)
    expect(body.detail).toBe('Revision 1 is approved and does not change. Start a new revision from it.')
    await lab
      .as('auditor')
      .post(lab.path(`/designs/${id}/panel-results`))
      .send(mixTime())
      .expect(403)
    await post(newId(), mixTime()).expect(404)
  })
})

describe('in review and signed content', () => {
  it('its writer has done work, its point "not tested" is gone, and what others found waits for a word', async () => {
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    const byEngineer = (body: object) =>
      lab
        .as('engineer2')
        .post(lab.path(`/designs/${design.id}/panel-results`))
        .send(body)
    const { body: first } = await byEngineer(mixTime({ typed: '117' })).expect(201)
    await byEngineer(mixTime({ supersedes: { id: first.id, reason: 'Digits transposed' } })).expect(201)
    const outside = {
      limitKey: 'lateral-displacement',
      typed: '2.6',
      unit: '%',
      madeBy: 'outside',
      laboratoryName: 'Fernside Testing',
      source: 'Report 88',
    }
    await byEngineer(mixTime(outside)).expect(201)
    await recommend(testApp, lab, design.id)
    const { review, content } = await testApp.services.laboratory.inLaboratory(lab.people.engineer2.actor, (tx) =>
      testApp.services.review.standingIn(tx, design.id),
    )
    expect(review.doneBy.map(({ name }) => name)).toContain('Person engineer2')
    expect(review.mayCheck).toMatchObject({
      allowed: false,
      sentence: expect.stringContaining('You did part of this work'),
    })
    const keys = review.points.map(({ key }) => key)
    expect(keys).not.toContain('not-tested:mix-time')
    expect(keys).toContain('not-tested:wet-stripping')
    const sentences = review.points.map(({ sentence }) => sentence)
    expect(sentences).toContain('Mix time, entered: 117 s replaced by 171 s by Person engineer2: Digits transposed.')
    expect(sentences.filter((one) => one.includes('not computed here'))).toEqual([
      'Lateral displacement (TB-147): 2.6 %, entered, not computed here: TB-113, 2017; another laboratory, Fernside Testing; Report 88; Stopwatch 2; observed by B. Person.',
    ])
    expect(content.enteredResults.map(({ key, madeBy }) => [key, madeBy])).toEqual([
      ['residue', undefined],
      ['aggregate-moisture', undefined],
      ['mix-time', 'entered'],
      ['lateral-displacement', 'outside'],
    ])
    expect(content.panel.find(({ key }) => key === 'mix-time')!.sentence).toContain('Entered, not computed here.')
    expect(content.people).toContainEqual({ name: 'Person engineer2', part: 'entered results not computed here' })
    expect(content.corrections).toMatchObject([{ label: 'Mix time, entered', from: '117 s', to: '171 s' }])
    const said = content.statements.join(' ')
    expect(said).toContain('Supplied by others and not tested here: lateral displacement (TB-147).')
    expect(said).toContain('except what others supplied as named here')
  })

  it('entered after a check, it is in no check: the work is checked again before it is approved', async () => {
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    await recommend(testApp, lab, design.id)
    await acknowledgeAll(testApp, lab, design.id)
    await sign(testApp, lab, design.id, 'check')
    const mayApprove = async () => (await testApp.services.review.read(lab.people.engineer.actor, design.id)).mayApprove
    expect((await mayApprove()).allowed).toBe(true)
    await post(design.id, mixTime()).expect(201)
    expect(await mayApprove()).toEqual({
      allowed: false,
      sentence: 'The work has not been checked as it stands now. Somebody who did none of it checks it first.',
    })
  })

  it('who made a residue is what was said, and only where nothing was said the first word of its source', async () => {
    const design = await makeDesign(testApp, lab, { residue: null })
    const residue = {
      id: newId(),
      key: 'residue',
      typed: '62.6',
      unit: '%',
      source: 'Three beakers',
      observedOn: '2026-03-02',
    }
    const { body } = await lab
      .as('technician')
      .post(lab.path(`/designs/${design.id}/entered-results`))
      .send({ ...residue, madeBy: 'entered' })
      .expect(201)
    expect(body.madeBy).toBe('entered')
    const read = await testApp.services.designs.read(lab.people.engineer.actor, design.id)
    expect([read.residue!.madeBy, read.moisture!.madeBy]).toEqual(['entered', null])
  })
})
