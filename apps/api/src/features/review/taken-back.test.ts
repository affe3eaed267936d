import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { pointsOf, read } from '../../../../../tests/support/factories/reviewed.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

it('a reading taken back is told once, read again or not, and never as a correction', async () => {
  const lab = await makeLaboratory(testApp)
  const { design, specimens } = await makePlannedDesign(testApp, lab, aSeries())
  const { batchTestId, code, label, methodName } = specimens[0]!
  const technician = lab.people.technician.actor
  const weigh = (typed: string) =>
    testApp.services.bench.readings.post(
      technician,
      batchTestId,
      aReading(testApp, 'weigh-components', 'aggregate', typed),
    )
  const first = await weigh('8000.0')
  testApp.clock.advance({ seconds: 8 })
  await testApp.services.bench.withdrawals.withdraw(technician, first.value.reading.id, {
    id: newId(),
    time: timeNow(testApp),
  })
  const told = async () => {
    const review = await read(lab, design.id)
    const { content } = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, (tx) =>
      testApp.services.review.standingIn(tx, design.id),
    )
    expect(pointsOf(review, 'correction')).toEqual([])
    expect(pointsOf(review, 'taken-back')).toMatchObject([
      {
        code,
        blocking: false,
        sentence: `${label} (${code}), ${methodName}: 8000.0 taken back after 8 s by Person technician: Mistyped.`,
      },
    ])
    expect(content.corrections).toMatchObject([
      { code, from: '8000.0', to: 'taken back after 8 s', reason: 'Mistyped', by: 'Person technician' },
    ])
    return content.specimens[0]!.batch.map(({ typed, corrected }) => [typed, corrected])
  }
  expect(await told()).toEqual([])
  testApp.clock.advance({ seconds: 30 })
  const again = await weigh('800.0')
  expect(await told()).toEqual([['800.0', '']])
  // What was put right later is a correction all the same.
  await testApp.services.bench.readings.correct(technician, again.value.reading.id, {
    id: newId(),
    typed: '801.0',
    reason: 'digits transposed',
    time: timeNow(testApp),
  })
  const review = await read(lab, design.id)
  expect(pointsOf(review, 'correction')).toHaveLength(1)
  expect(pointsOf(review, 'taken-back')).toHaveLength(1)
})
