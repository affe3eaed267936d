import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import {
  acknowledgeAll,
  makeApprovedDesign,
  makeTestedDesign,
  oneDisc,
} from '../../../../../tests/support/factories/tested-design.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const seen = (more: object = {}) => ({
  id: newId(),
  stepKey: 'soak',
  choice: 'edge-lifted',
  note: 'on the left',
  time: timeNow(testApp),
  ...more,
})
const post = (testId: string, body: object, url?: string) =>
  lab
    .as('technician', url)
    .post(lab.path(`/tests/${testId}/observations`))
    .send(body)
const view = (testId: string) => testApp.services.bench.view.one(lab.people.technician.actor, testId)
const aPhoto = async () =>
  (
    await testApp.services.attachments.create(lab.people.technician.actor, {
      id: newId(),
      name: 'edge.png',
      mediaType: 'image/png',
      base64: 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==',
    })
  ).value

describe('what is seen at a step', () => {
  it('is kept once with word, time and photograph, several at one step, and computes nothing', async () => {
    const { specimens } = await makePlannedDesign(testApp, lab)
    const [{ testId }] = specimens as [(typeof specimens)[number]]
    const before = await view(testId)
    const photo = await aPhoto()
    const body = seen({ attachmentId: photo.id })
    const { body: made } = await post(testId, body).expect(201)
    expect(made).toMatchObject({
      stepKey: 'soak',
      choice: 'edge-lifted',
      note: 'on the left',
      eventAt: testApp.clock.now().toISOString(),
      attachment: { id: photo.id, name: 'edge.png', sha256: photo.sha256 },
    })
    expect((await post(testId, body).expect(200)).body).toEqual(made)
    await post(testId, { ...body, note: 'on the right' }).expect(409)
    await post(testId, seen({ choice: 'other', note: 'felt curled' })).expect(201)
    const after = await view(testId)
    expect(after.observations.map(({ choice }) => choice)).toEqual(['edge-lifted', 'other'])
    expect([after.state, after.currentStep, after.results]).toEqual([before.state, before.currentStep, before.results])
  })

  it('is refused beside the field: no such step, nothing of this form, other without words, no such file', async () => {
    const { specimens } = await makePlannedDesign(testApp, lab)
    const [{ testId, batchTestId }] = specimens as [(typeof specimens)[number]]
    const path = async (id: string, body: object) => (await post(id, body).expect(400)).body.errors[0].path
    expect(await path(testId, seen({ stepKey: 'sand' }))).toBe('stepKey')
    expect(await path(testId, seen({ choice: 'plate-bent' }))).toBe('choice')
    expect(await path(batchTestId, seen({ stepKey: 'mix' }))).toBe('choice')
    expect(await path(testId, seen({ choice: 'other', note: '  ' }))).toBe('note')
    expect(await path(testId, seen({ attachmentId: newId() }))).toBe('attachmentId')
    expect((await view(testId)).observations).toEqual([])
  })

  it('sent twice at the same moment through two servers is one', async () => {
    const { specimens } = await makePlannedDesign(testApp, lab)
    const [{ testId }] = specimens as [(typeof specimens)[number]]
    const another = await testApp.startAnother()
    const body = seen()
    const answers = await Promise.all([post(testId, body), post(testId, body, another.url)])
    await another.close()
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 201])
    expect((await view(testId)).observations).toHaveLength(1)
  })
})

it('entered in error is superseded with the reason; of two corrections at once one stands', async () => {
  const { specimens } = await makePlannedDesign(testApp, lab)
  const [{ testId }] = specimens as [(typeof specimens)[number]]
  const wrong = seen({ choice: 'felt-torn' })
  await post(testId, wrong).expect(201)
  const another = await testApp.startAnother()
  const correction = (note: string) => seen({ note, supersedes: { id: wrong.id, reason: 'Was another disc' } })
  const answers = await Promise.all([post(testId, correction('left')), post(testId, correction('right'), another.url)])
  await another.close()
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
  const { observations } = await view(testId)
  expect(observations.map(({ superseded }) => superseded).sort()).toEqual([false, true])
  expect(observations.find(({ superseded }) => !superseded)?.supersedes).toEqual({
    id: wrong.id,
    reason: 'Was another disc',
  })
  await post(testId, seen({ stepKey: 'abrade', supersedes: { id: wrong.id, reason: 'x' } })).expect(400)
})

describe('what was seen', () => {
  it('is a point of the review and a remark of the report, with who and the file’s sum; of the batch and of a void specimen too', async () => {
    const { design, specimens } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    const [disc] = specimens as [(typeof specimens)[number]]
    const photo = await aPhoto()
    await testApp.services.bench.ending.void(lab.people.technician.actor, disc.testId, {
      id: newId(),
      reason: 'Felt tore',
      time: timeNow(testApp),
    })
    await post(disc.batchTestId, seen({ stepKey: 'mix', choice: 'broke-early', note: null })).expect(201)
    await post(disc.testId, seen({ stepKey: 'abrade', choice: 'felt-torn', attachmentId: photo.id })).expect(201)
    const ofDesign = await lab
      .as('auditor')
      .get(lab.path(`/designs/${design.id}/observations`))
      .expect(200)
    expect(
      ofDesign.body.items.map(({ choice, specimenTestId }: { choice: string; specimenTestId: string }) => [
        choice,
        specimenTestId,
      ]),
    ).toEqual([
      ['broke-early', disc.testId],
      ['felt-torn', disc.testId],
    ])
    const engineer = lab.people.engineer.actor
    const { points } = await testApp.services.review.read(engineer, design.id)
    const found = points.filter(({ kind }) => kind === 'observation')
    expect(
      found.map(({ code, blocking, sentence }) => [code, blocking, sentence.slice(sentence.indexOf(': '))]),
    ).toEqual([
      [disc.code, false, `: broke early, seen by ${lab.people.technician.actor.name}.`],
      [disc.code, false, `: felt torn, on the left, seen by ${lab.people.technician.actor.name}, edge.png.`],
    ])
    await acknowledgeAll(testApp, lab, design.id)
    const { content } = await testApp.services.laboratory.inLaboratory(engineer, (tx) =>
      testApp.services.review.standingIn(tx, design.id),
    )
    const [specimen] = content.specimens
    expect(specimen!.remark).toContain('broke early; felt torn, on the left')
    expect(specimen!.events.find(({ label }) => label === 'Seen')).toMatchObject({
      step: 'Abrade',
      by: lab.people.technician.actor.name,
      note: `felt torn, on the left; edge.png (SHA-256 ${photo.sha256})`,
    })
  })

  it('after the approval is told as a change of the record', async () => {
    const { design, specimens } = await makeApprovedDesign(testApp, lab, { weighings: oneDisc })
    await post(specimens[0]!.testId, seen({ stepKey: 'abrade' })).expect(201)
    const { changedSinceApproval } = await testApp.services.review.read(lab.people.engineer.actor, design.id)
    expect(changedSinceApproval).toEqual([expect.stringContaining('seen, edge lifted, on the left')])
  })
})
