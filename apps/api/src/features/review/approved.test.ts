import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { wallClockWords } from './wall-clock-words.ts'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeMaterial } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { correctW2, pointsOf, read, twoDiscs } from '../../../../../tests/support/factories/reviewed.ts'
import {
  aRecommendation,
  makeApprovedDesign,
  oneDisc,
  runToTheEnd,
  weighBatches,
} from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

const zone = 'Europe/London'
let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

describe('what is approved', () => {
  it('does not change: edits, plans, entered results, words and recommendations are refused, by the database too', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, review } = await makeApprovedDesign(testApp, lab, { weighings: oneDisc })
    const engineer = lab.people.engineer.actor
    const { designs, recommendations, laboratory } = testApp.services
    const { version, residue } = await designs.read(engineer, design.id)
    const refused = { code: 'wrong-state' }

    await expect(designs.update(engineer, design.id, { name: 'Another name' }, version)).rejects.toMatchObject(refused)
    await expect(
      designs.plan(
        engineer,
        design.id,
        { contents: [], methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 3, spares: [] }] },
        newId(),
      ),
    ).rejects.toMatchObject(refused)
    await expect(
      designs.enterResult(engineer, design.id, {
        id: newId(),
        key: 'residue',
        typed: '63.0',
        unit: '%',
        source: 'Own test',
        observedOn: '2026-03-02',
        supersedes: { id: residue!.id, reason: 'Again' },
      }),
    ).rejects.toMatchObject(refused)
    await expect(
      recommendations.recommend(
        engineer,
        design.id,
        aRecommendation({ supersedes: { id: review.recommendation!.id, reason: 'Other' } }),
      ),
    ).rejects.toMatchObject(refused)
    await lab
      .as('engineer')
      .post(lab.path(`/designs/${design.id}/acknowledgements`))
      .send({ id: newId(), pointKey: review.points[0]!.key, word: 'Again' })
      .expect(409)
    await lab
      .as('engineer')
      .post(lab.path(`/designs/${design.id}/send-back`))
      .send({ id: newId(), reason: 'Too late', points: ['recommendation'] })
      .expect(409)

    const inDatabase = (text: string) =>
      laboratory.inLaboratorySql(engineer, (sql) => sql.query(text, [lab.labId, design.revisionId]))
    for (const text of [
      `update design_revision set state = 'in-work' where lab_id = $1 and id = $2`,
      `update design_revision set note = 'x' where lab_id = $1 and id = $2`,
      `update mix set water_percent = 1 where lab_id = $1 and design_revision_id = $2`,
      `delete from mix where lab_id = $1 and design_revision_id = $2`,
    ])
      await expect(inDatabase(text)).rejects.toMatchObject({ code: expect.stringMatching(/^(CB004|42501)$/) })
  })

  it('tells of corrections and voids made afterwards, and keeps what was signed', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens, review } = await makeApprovedDesign(testApp, lab, { weighings: twoDiscs })
    await correctW2(testApp, lab, specimens[0]!.testId, '749.0')
    await testApp.services.bench.ending.void(lab.people.technician.actor, specimens[1]!.testId, {
      id: newId(),
      reason: 'Felt tore',
      time: timeNow(testApp),
    })
    const after = await read(lab, design.id)
    expect(after.changedSinceApproval).toEqual([
      `12-1 (${specimens[0]!.code}): 750.0 corrected to 749.0, digits transposed`,
      `12-2 (${specimens[1]!.code}): void, Felt tore`,
    ])
    expect(after.signatures).toEqual(review.signatures)
  })

  it('tells of a time put right afterwards as a correction, which changes no figure that was signed', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeApprovedDesign(testApp, lab, { weighings: oneDisc })
    const technician = lab.people.technician.actor
    const { testId, code } = specimens[0]!
    const { events } = await testApp.services.bench.view.one(technician, testId)
    const cure = events.find(({ stepKey, kind }) => stepKey === 'cure' && kind === 'start')!
    const moved = new Date(Date.parse(cure.eventAt) + 60_000).toISOString()
    await lab
      .as('technician')
      .post(lab.path(`/tests/${testId}/acts/${cure.id}/corrections`))
      .send({
        id: newId(),
        reason: 'Read off the wrong clock',
        time: { ...timeNow(testApp), eventAt: moved, eventFrom: 'at', note: 'By the sheet' },
      })
      .expect(200)
    const after = await read(lab, design.id)
    const [from, to] = [cure.eventAt, moved].map((at) => wallClockWords(zone, at))
    expect(after.changedSinceApproval).toEqual([
      `12-1 (${code}): start of cure, ${from} put right to ${to}, Read off the wrong clock`,
    ])
    expect(pointsOf(after, 'correction')).toMatchObject([
      { code, sentence: expect.stringContaining(`: ${from} put right to ${to} by Person technician: Read`) as string },
    ])
    expect(after.sinceSigned).toBeNull()
    const { content } = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, (tx) =>
      testApp.services.review.standingIn(tx, design.id),
    )
    expect(content.corrections).toMatchObject([
      { code, from: expect.stringContaining(from!) as string, to, by: 'Person technician' },
    ])
  })

  it('names each figure that stands otherwise than signed and by how much, and leaves the approval', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens, review } = await makeApprovedDesign(testApp, lab, { weighings: twoDiscs })
    expect(review.sinceSigned).toBeNull()
    await correctW2(testApp, lab, specimens[0]!.testId, '749.0')
    const { sinceSigned, state } = await read(lab, design.id)
    expect(state).toBe('approved')
    expect(sinceSigned).toMatchObject({ meaning: 'approved', name: 'Person engineer', undone: false })
    const rows = (part: string) =>
      sinceSigned!.parts
        .filter(({ key }) => key === part)
        .flatMap(({ rows }) => rows.map(({ key, of, by }) => [key, of.specimen ?? of.label, by]))
    // One gram more lost: 32.9 g/m² of the disc, half of it of the mean of two and of the value judged.
    expect(rows('results')).toContainEqual(['result', `12-1 (${specimens[0]!.code})`, '32.9'])
    expect(rows('means')).toEqual([['mean', expect.stringContaining('1-hour'), '16.45']])
    expect(rows('panel')).toEqual([['value', expect.stringContaining('1-hour'), '16.45']])
    expect(JSON.stringify(rows('results'))).not.toContain('12-2')
  })

  it('is followed by a revision that starts from it, reads the earlier tests and can change again', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens, machineId } = await makeApprovedDesign(testApp, lab, { weighings: oneDisc })
    const engineer = lab.people.engineer.actor
    const made = await lab
      .as('engineer')
      .post(lab.path(`/designs/${design.id}/revisions`))
      .send({ id: newId(), reason: 'One more disc asked for' })
      .expect(201)
    expect(made.body).toMatchObject({ revision: 2, state: 'in-work' })
    await testApp.services.designs.plan(
      engineer,
      design.id,
      {
        contents: [{ emulsionPercent: '12', waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
        methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 1, spares: [] }],
      },
      newId(),
    )
    const { items } = await testApp.services.designs.specimens(engineer, design.id)
    expect(items).toHaveLength(2)
    const added = items.filter(({ testId }) => testId !== specimens[0]!.testId)
    await weighBatches(testApp, lab, added)
    await runToTheEnd(testApp, lab, added, { instrumentId: machineId, weighed: () => ['762.0', '751.0'] })

    const now = await testApp.services.range.read(engineer, design.id)
    expect(now.curves.find(({ key }) => key === 'abrasion-loss-1-hour')!.means).toMatchObject([{ n: 2 }])
    const before = await testApp.services.range.read(engineer, design.id, 1)
    expect(before.curves.find(({ key }) => key === 'abrasion-loss-1-hour')!.means).toMatchObject([{ n: 1 }])
    const { state, recommendation, signatures } = await read(lab, design.id)
    expect({ state, recommendation, signatures }).toEqual({ state: 'in-work', recommendation: null, signatures: [] })
    expect((await testApp.services.review.read(engineer, design.id, 1)).state).toBe('approved')
  })
})

describe('what a design is made of', () => {
  it('is left alone by samples that come later', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeApprovedDesign(testApp, lab, { weighings: oneDisc })
    const { digest } = await read(lab, design.id)
    await makeMaterial(testApp, lab, 'aggregate', { name: 'Another aggregate' })
    expect((await read(lab, design.id)).digest).toBe(digest)
  })
})
