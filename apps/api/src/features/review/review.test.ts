import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { testPassword } from '../../../../../tests/support/factories/account.ts'
import { timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { correctW2, pointsOf, read, twoDiscs } from '../../../../../tests/support/factories/reviewed.ts'
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

const signature = (digest: string, changes: object = {}) => ({
  id: newId(),
  digest,
  password: testPassword,
  ...changes,
})

describe('what has to be seen before signing', () => {
  it('lists voids, undecided deviations, corrections, few replicates and what was not tested; each waits for a word', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, {
      weighings: twoDiscs,
      soakMinutes: ({ replicate }) => (replicate === 2 ? 79 : 62),
    })
    const [first, second] = specimens as [(typeof specimens)[0], (typeof specimens)[0]]
    await correctW2(testApp, lab, second.testId, '751.5')
    await testApp.services.bench.ending.void(lab.people.technician.actor, first.testId, {
      id: newId(),
      reason: 'Felt tore',
      time: timeNow(testApp),
    })
    await recommend(testApp, lab, design.id)

    const review = await read(lab, design.id)
    expect(pointsOf(review, 'void').map(({ code }) => code)).toEqual([first.code])
    expect(pointsOf(review, 'void')[0]!.sentence).toContain('Felt tore')
    const [deviation] = pointsOf(review, 'deviation')
    expect(deviation).toMatchObject({ code: second.code, blocking: true })
    expect(deviation!.sentence).toContain('Not decided yet')
    expect(pointsOf(review, 'correction')[0]!.sentence).toContain(
      '751.4 corrected to 751.5 by Person technician: digits transposed.',
    )
    expect(pointsOf(review, 'few-replicates')[0]!.sentence).toContain('n = 1')
    expect(pointsOf(review, 'not-tested').length).toBeGreaterThan(5)
    expect(review.points.every(({ acknowledged }) => acknowledged === null)).toBe(true)
    expect(review.mayApprove.allowed).toBe(false)

    const say = (pointKey: string, word = 'Seen') =>
      lab
        .as('engineer')
        .post(lab.path(`/designs/${design.id}/acknowledgements`))
        .send({ id: newId(), pointKey, word })
    expect((await say(deviation!.key).expect(409)).body.detail).toContain('A word does not settle this')
    expect((await say(deviation!.key, '  ').expect(400)).body.errors[0].path).toBe('word')
    expect((await say('void:nothing').expect(400)).body.errors[0].path).toBe('pointKey')
    const { body: said } = await say(
      pointsOf(review, 'void')[0]!.key,
      'Felt tore at the clamp, spare not needed',
    ).expect(200)
    expect(pointsOf(said, 'void')[0]!.acknowledged).toMatchObject({
      word: 'Felt tore at the clamp, spare not needed',
      by: { name: 'Person engineer' },
    })

    const deviationId = deviation!.key.slice('deviation:'.length)
    await testApp.services.deviations.decide(lab.people.engineer.actor, deviationId, {
      id: newId(),
      kind: 'accept',
      reason: 'A longer soak can only raise the loss',
      spareTestId: null,
    })
    const decided = pointsOf(await read(lab, design.id), 'deviation')[0]!
    expect(decided).toMatchObject({ blocking: false, acknowledged: null })
    expect(decided.sentence).toContain('Accepted by Person engineer: A longer soak can only raise the loss')
    const settled = await acknowledgeAll(testApp, lab, design.id)
    expect(settled.points.every(({ acknowledged }) => acknowledged !== null)).toBe(true)
  })

  it('says of an odd specimen why it is odd and what the range would be without it, and of a void one that it does not count', async () => {
    const lab = await makeLaboratory(testApp)
    const discs = [
      ['762.0', '750.0'],
      ['763.0', '751.4'],
      ['764.0', '714.0'],
    ] as const
    const { design, specimens } = await makeTestedDesign(testApp, lab, {
      weighings: {
        'wet-track-abrasion-1h': { '10': discs.map(([before]) => [before, '735.0'] as const), '12': discs },
      },
    })
    const odd = pointsOf(await read(lab, design.id), 'odd')
    const third = specimens.find(({ label }) => label === '12-3')!
    expect(odd).toHaveLength(1)
    expect(odd[0]).toMatchObject({ code: third.code, blocking: false, acknowledged: null })
    expect(odd[0]!.sentence).toContain('Loss of 50 g; its replicates show 12 and 11.6 g')
    // Without it 12 % emulsion meets the limit (11.8 g × 32.9 = 388 g/m²), and the line from 10 % crosses it.
    expect(odd[0]!.effect).toMatch(/^Without 12-3: .+ n = 2 would be left at this content\.$/)

    await testApp.services.bench.ending.void(lab.people.technician.actor, third.testId, {
      id: newId(),
      reason: 'Wrong disc on the balance',
      time: timeNow(testApp),
    })
    const after = await read(lab, design.id)
    expect(pointsOf(after, 'odd')).toEqual([])
    expect(pointsOf(after, 'void')[0]!.effect).toBe('It does not count in the range.')
    expect(after.parts).toContainEqual({ name: 'Person technician', part: 'carried out steps, weighed and read' })
  })

  it('asks for a word again when fewer replicates are left than the word was on', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, { weighings: twoDiscs })
    await recommend(testApp, lab, design.id)
    const settled = await acknowledgeAll(testApp, lab, design.id)
    expect(pointsOf(settled, 'few-replicates')[0]!.sentence).toContain('n = 2')
    await testApp.services.bench.ending.void(lab.people.technician.actor, specimens[0]!.testId, {
      id: newId(),
      reason: 'Felt tore',
      time: timeNow(testApp),
    })
    const [few] = pointsOf(await read(lab, design.id), 'few-replicates')
    expect(few!.sentence).toContain('n = 1')
    expect(few!.acknowledged).toBeNull()
  })

  it('blocks on a specimen that is not finished', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, {
      weighings: twoDiscs,
      skip: ({ replicate }) => replicate === 2,
    })
    await recommend(testApp, lab, design.id)
    const review = await acknowledgeAll(testApp, lab, design.id)
    const open = review.points.filter(({ blocking }) => blocking)
    expect(open).toHaveLength(1)
    expect(open[0]!.sentence).toContain('is not finished')
    expect(review.mayApprove.sentence).toContain('1 point waits')
  })
})

describe('checking and approving', () => {
  it('needs a check by somebody who did none of the work, the right password, and exactly the content shown', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    // One of the engineers put a hand to it.
    const { readings } = await testApp.services.bench.view.one(lab.people.technician.actor, specimens[0]!.batchTestId)
    await testApp.services.bench.readings.correct(
      lab.people.engineer2.actor,
      readings.find(({ key }) => key === 'water')!.id,
      { id: newId(), typed: '80.1', reason: 'misread', time: timeNow(testApp) },
    )
    await recommend(testApp, lab, design.id)
    await acknowledgeAll(testApp, lab, design.id)
    const { digest, workDigest, doneBy } = await read(lab, design.id)
    expect(doneBy.map(({ name }) => name)).toEqual(['Person engineer', 'Person engineer2', 'Person technician'])
    const check = (who: 'manager' | 'engineer2' | 'engineer', body: object) =>
      lab
        .as(who)
        .post(lab.path(`/designs/${design.id}/check`))
        .send(body)
    const approve = (who: 'engineer' | 'engineer2', body: object) =>
      lab
        .as(who)
        .post(lab.path(`/designs/${design.id}/approve`))
        .send(body)

    expect((await check('engineer2', signature(workDigest)).expect(422)).body.detail).toContain(
      'You did part of this work',
    )
    expect((await approve('engineer', signature(digest)).expect(422)).body.detail).toContain('has not been checked')
    expect(
      (await check('manager', signature(workDigest, { password: 'not the password of anybody' })).expect(403)).body
        .code,
    ).toBe('wrong-password')
    const stale = await check('manager', signature('0'.repeat(64))).expect(412)
    expect(stale.body).toMatchObject({ shown: '0'.repeat(64), now: workDigest })

    const { body: checked } = await check('manager', signature(workDigest)).expect(200)
    expect(checked.signatures).toMatchObject([
      { meaning: 'checked', name: 'Person manager', role: 'manager', digest: workDigest },
    ])
    expect((await check('manager', signature(workDigest)).expect(422)).body.detail).toContain(
      'has checked exactly this work',
    )

    expect((await approve('engineer', signature('f'.repeat(64))).expect(412)).body).toMatchObject({
      shown: 'f'.repeat(64),
      now: digest,
    })
    const message = signature(digest)
    const { body: approved } = await approve('engineer', message).expect(200)
    expect(approved).toMatchObject({ state: 'approved', changedSinceApproval: [] })
    expect(approved.signatures[1]).toMatchObject({
      meaning: 'approved',
      name: 'Person engineer',
      role: 'engineer',
      digest,
    })
    // The same message again is the same signature.
    expect((await approve('engineer', message).expect(200)).body.signatures).toHaveLength(2)
    expect((await approve('engineer2', signature(digest)).expect(422)).body.detail).toContain('approved')
    expect(await testApp.services.ledger.verify(lab.people.manager.actor, {})).toMatchObject({
      whole: true,
      firstBreak: null,
    })
  })

  it('lets nobody approve alone what they checked themselves', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    await recommend(testApp, lab, design.id)
    await acknowledgeAll(testApp, lab, design.id)
    await sign(testApp, lab, design.id, 'check', 'engineer2')
    await expect(sign(testApp, lab, design.id, 'approve', 'engineer2')).rejects.toMatchObject({
      code: 'refused-by-rule',
    })
    expect((await sign(testApp, lab, design.id, 'approve', 'engineer')).state).toBe('approved')
  })

  it('counts a check no more when the work changed after it', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    await recommend(testApp, lab, design.id)
    await acknowledgeAll(testApp, lab, design.id)
    await sign(testApp, lab, design.id, 'check')
    await correctW2(testApp, lab, specimens[0]!.testId, '750.4')
    const { sinceSigned } = await acknowledgeAll(testApp, lab, design.id)
    // Whose check, and what it was of: 0.4 g less lost, × 32.9 g/m² per g.
    expect(sinceSigned).toMatchObject({ meaning: 'checked', name: 'Person manager', undone: true })
    expect(sinceSigned!.parts.flatMap(({ rows }) => rows.map(({ by }) => by))).toContain('-13.16')
    await expect(sign(testApp, lab, design.id, 'approve')).rejects.toMatchObject({ code: 'refused-by-rule' })
    expect((await sign(testApp, lab, design.id, 'check')).sinceSigned).toBeNull()
    expect((await sign(testApp, lab, design.id, 'approve')).state).toBe('approved')
  })
})

describe('two at once, on connections of their own', () => {
  it('approves once', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    await recommend(testApp, lab, design.id)
    await acknowledgeAll(testApp, lab, design.id)
    await sign(testApp, lab, design.id, 'check')
    const { digest } = await read(lab, design.id)
    const another = await testApp.startAnother()
    try {
      const path = lab.path(`/designs/${design.id}/approve`)
      const answers = await Promise.all([
        lab.as('engineer').post(path).send(signature(digest)),
        lab.as('engineer2', another.url).post(path).send(signature(digest)),
      ])
      expect(answers.map(({ status }) => status).sort()).toEqual([200, 422])
      expect((await read(lab, design.id)).signatures.filter(({ meaning }) => meaning === 'approved')).toHaveLength(1)
    } finally {
      await another.close()
    }
  })

  it('keeps one word on a point that two acknowledge, and the other word behind it', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    await recommend(testApp, lab, design.id)
    const [point] = (await read(lab, design.id)).points
    const another = await testApp.startAnother()
    try {
      const path = lab.path(`/designs/${design.id}/acknowledgements`)
      const answers = await Promise.all([
        lab.as('engineer').post(path).send({ id: newId(), pointKey: point!.key, word: 'First' }),
        lab.as('engineer2', another.url).post(path).send({ id: newId(), pointKey: point!.key, word: 'Second' }),
      ])
      expect(answers.map(({ status }) => status)).toEqual([200, 200])
      const standing = (await read(lab, design.id)).points[0]!.acknowledged!
      expect(['First', 'Second']).toContain(standing.word)
      const rows = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
        prisma.acknowledgement.findMany({
          where: { labId: lab.labId, designRevisionId: design.revisionId, pointKey: point!.key },
        }),
      )
      expect(rows.map(({ word }) => word).sort()).toEqual(['First', 'Second'])
      expect(rows.filter(({ supersedesId }) => supersedesId === null)).toHaveLength(1)
    } finally {
      await another.close()
    }
  })

  it('never approves over a correction unseen: either it is in the signed content, or told as changed since', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    await recommend(testApp, lab, design.id)
    await acknowledgeAll(testApp, lab, design.id)
    await sign(testApp, lab, design.id, 'check')
    const { digest } = await read(lab, design.id)
    const [approval] = await Promise.all([
      lab
        .as('engineer')
        .post(lab.path(`/designs/${design.id}/approve`))
        .send(signature(digest)),
      correctW2(testApp, lab, specimens[0]!.testId, '749.0'),
    ])
    const after = await read(lab, design.id)
    expect([200, 412, 422]).toContain(approval.status)
    expect(after.changedSinceApproval).toHaveLength(approval.status === 200 ? 1 : 0)
    expect(pointsOf(after, 'correction')).toHaveLength(1)
  })
})
