import { afterAll, beforeAll, expect, it } from 'vitest'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

it('is when Enter was pressed, however long it waited for the network; when it arrived is kept beside it', async () => {
  const lab = await makeLaboratory(testApp)
  const { specimens } = await makePlannedDesign(testApp, lab, aSeries())
  const test = lab.path(`/tests/${specimens[0]!.batchTestId}`)
  const entered = testApp.clock.now()
  testApp.clock.advance({ hours: 3 })
  const arrived = testApp.clock.now().toISOString()
  const reading = aReading(testApp, 'weigh-components', 'aggregate', '800.0', {
    time: { eventAt: entered.toISOString(), eventFrom: 'now', sentAt: arrived },
  })
  await lab.as('technician').post(`${test}/readings`).send(reading).expect(201)
  const { body } = await lab.as('technician').get(test).expect(200)
  expect(body.readings).toMatchObject([{ eventAt: entered.toISOString(), receivedAt: arrived }])
})
