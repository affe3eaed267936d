import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { pointsOf, read, twoDiscs } from '../../../../../tests/support/factories/reviewed.ts'
import {
  acknowledgeAll,
  makeTestedDesign,
  oneDisc,
  recommend,
  sign,
} from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

describe('sending back', () => {
  it('names points with a reason, opens the revision again, and a further recommendation brings it back', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    const sendBack = (body: object) =>
      lab
        .as('manager')
        .post(lab.path(`/designs/${design.id}/send-back`))
        .send({ id: newId(), ...body })
    await sendBack({ reason: 'Nothing is in review', points: ['recommendation'] }).expect(409)
    const { id } = await recommend(testApp, lab, design.id)
    expect((await sendBack({ reason: 'Wrong', points: [] }).expect(400)).body.errors[0].path).toBe('points')
    const { body } = await sendBack({
      reason: 'The tolerance is wider than the plant holds',
      points: ['recommendation'],
    }).expect(200)
    expect(body).toMatchObject({
      state: 'sent-back',
      sentBack: {
        reason: 'The tolerance is wider than the plant holds',
        points: ['The recommendation'],
        by: { name: 'Person manager' },
      },
    })
    expect((await testApp.services.designs.read(lab.people.engineer.actor, design.id)).sentBack).toMatchObject({
      points: ['The recommendation'],
    })
    // The engineer's first screen is the list of designs: it says so there, with reason and point, until it is put right.
    const listed = async () => (await lab.as('engineer').get(lab.path('/designs')).expect(200)).body.items[0].sentBack
    expect(await listed()).toMatchObject({
      reason: 'The tolerance is wider than the plant holds',
      points: ['The recommendation'],
      by: { name: 'Person manager' },
    })
    await acknowledgeAll(testApp, lab, design.id)
    await sign(testApp, lab, design.id, 'check')
    await expect(sign(testApp, lab, design.id, 'approve')).rejects.toMatchObject({ code: 'refused-by-rule' })
    await recommend(testApp, lab, design.id, {
      toleranceResidualPercent: '0.3',
      supersedes: { id, reason: 'Narrower' },
    })
    expect(await listed()).toBeNull()
    expect((await sign(testApp, lab, design.id, 'approve')).state).toBe('approved')
  })
})

describe('what a revision is sent back for', () => {
  it('is named by key or code and kept in the words in which it stood; what the revision does not have is refused', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, { weighings: twoDiscs })
    await recommend(testApp, lab, design.id)
    const [few] = pointsOf(await read(lab, design.id), 'few-replicates')
    const { code, label, methodName } = specimens[0]!
    const sendBack = (points: readonly string[]) =>
      lab
        .as('engineer')
        .post(lab.path(`/designs/${design.id}/send-back`))
        .send({ id: newId(), reason: 'One more strip', points })
    for (const unknown of [few!.sentence, 'few:nothing', 'ZZZZ']) {
      const { body } = await sendBack([few!.key, unknown]).expect(400)
      expect(body.errors[0]).toMatchObject({ path: 'points', message: expect.stringContaining(`“${unknown}”`) })
    }
    expect((await read(lab, design.id)).state).toBe('in-review')
    const { body } = await sendBack([few!.key, code]).expect(200)
    const kept = [few!.sentence, `${label} (${code}), ${methodName}`]
    expect(body.sentBack.points).toEqual(kept)
    // The point is another once a specimen is void; what was sent back stays what it was.
    await testApp.services.bench.ending.void(lab.people.technician.actor, specimens[0]!.testId, {
      id: newId(),
      reason: 'Felt tore',
      time: timeNow(testApp),
    })
    expect((await read(lab, design.id)).sentBack!.points).toEqual(kept)
    expect((await testApp.services.designs.read(lab.people.engineer.actor, design.id)).sentBack!.points).toEqual(kept)
  })
})
