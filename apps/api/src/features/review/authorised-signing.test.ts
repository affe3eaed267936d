import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'
import {
  acknowledgeAll,
  makeTestedDesign,
  oneDisc,
  recommend,
  sign,
} from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

const grant = (lab: TestLaboratory, who: PersonKey, activity: string, untilDay: string | null = null) =>
  testApp.services.authorisations.grant(lab.people.manager.actor, {
    id: newId(),
    membershipId: lab.people[who].actor.membershipId,
    activity,
    fromDay: '2026-01-01',
    untilDay,
    evidence: 'Observed',
  })

describe('signing', () => {
  it('without the authorisation is refused with the sentence, from the first authorisation of the activity on', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    await recommend(testApp, lab, design.id)
    await acknowledgeAll(testApp, lab, design.id)
    await grant(lab, 'engineer2', 'check')
    await grant(lab, 'engineer2', 'approve')
    await grant(lab, 'engineer', 'approve', '2026-03-01')
    const today = testApp.clock.now().toISOString().slice(0, 10)
    await expect(sign(testApp, lab, design.id, 'check')).rejects.toMatchObject({
      code: 'refused-by-rule',
      message: `Person manager was not authorised for “Check the work” on ${today}. A manager authorises people under People.`,
    })
    await sign(testApp, lab, design.id, 'check', 'engineer2')
    await expect(sign(testApp, lab, design.id, 'approve')).rejects.toMatchObject({
      message: `Person engineer was authorised for “Approve” until 2026-03-01 only, not on ${today}. A manager authorises people under People.`,
    })
    await grant(lab, 'engineer', 'approve')
    const approved = await sign(testApp, lab, design.id, 'approve')
    expect(approved.state).toBe('approved')
  })
})

describe('a reading that waits', () => {
  it('blocks until it is released', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    await recommend(testApp, lab, design.id)
    const { testId } = specimens[0]!
    const { readings } = await testApp.services.bench.view.one(lab.people.technician.actor, testId)
    const w2 = readings.find(({ stepKey }) => stepKey === 'weigh-after')!
    await grant(lab, 'technician2', 'method:wet-track-abrasion-1h')
    await testApp.services.bench.readings.correct(lab.people.technician.actor, w2.id, {
      id: newId(),
      typed: '750.2',
      reason: 'weighed again',
      time: timeNow(testApp),
    })
    const read = () => testApp.services.review.read(lab.people.engineer.actor, design.id)
    const [point] = (await read()).points.filter(({ kind }) => kind === 'deviation')
    expect(point).toMatchObject({ blocking: true, testId })
    expect(point!.sentence).toContain('kept and does not count until released. Not decided yet.')
    const { items } = await testApp.services.designs.specimens(lab.people.engineer.actor, design.id)
    expect(items[0]!.waits).toBe(true)

    const [deviation] = (
      await testApp.services.deviations.list(lab.people.manager.actor, { open: true, designId: null })
    ).items
    await testApp.services.deviations.decide(lab.people.manager.actor, deviation!.id, {
      id: newId(),
      kind: 'release',
      reason: 'Observed beside the authorised one',
      readingIds: deviation!.waiting!.readingIds,
      spareTestId: null,
    })
    const after = (await read()).points.find(({ kind }) => kind === 'deviation')!
    expect(after.blocking).toBe(false)
    expect(after.sentence).toContain('Released by Person manager: Observed beside the authorised one')
  })
})

describe('an instrument without any calibration on record', () => {
  it('is a finding to be seen, not a stop', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, {
      weighings: oneDisc,
      skip: () => true,
    })
    const balance = await makeInstrument(testApp, lab, { code: 'BAL-9', kind: 'balance', name: 'Balance' })
    const { value } = await testApp.services.bench.readings.post(
      lab.people.technician.actor,
      specimens[0]!.batchTestId,
      aReading(testApp, 'weigh-components', 'aggregate', '800.0', { instrumentId: balance.id }),
    )
    expect(value.reading.waits).toBe(false)
    const { points } = await testApp.services.review.read(lab.people.engineer.actor, design.id)
    expect(points.filter(({ key }) => key.startsWith('uncalibrated:'))).toMatchObject([
      {
        kind: 'finding',
        blocking: false,
        sentence: 'BAL-9 holds no calibration on record; 1 reading was taken with it.',
      },
    ])
  })
})
