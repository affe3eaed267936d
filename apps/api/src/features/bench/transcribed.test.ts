import { afterAll, beforeAll, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading } from '../../../../../tests/support/factories/bench.ts'
import { makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

it('a reading entered from paper says so, with the time on the paper and the photograph of the sheet', async () => {
  const lab = await makeLaboratory(testApp)
  const { design, specimens } = await makePlannedDesign(testApp, lab)
  const [{ testId }] = specimens as [(typeof specimens)[number]]
  const technician = lab.people.technician.actor
  const sheet = await testApp.services.attachments.create(technician, {
    id: newId(),
    name: 'sheet.csv',
    mediaType: 'text/csv',
    base64: 'Y3VwO3MK',
  })
  const now = testApp.clock.now()
  const eventAt = new Date(now.getTime() - 20 * 3_600_000).toISOString()
  const paper = (more: object = {}) =>
    aReading(testApp, 'weigh-before', 'mass', '760.0', {
      time: { eventAt, eventFrom: 'paper', sentAt: now.toISOString() },
      ...more,
    })
  const post = (body: object) =>
    lab
      .as('technician')
      .post(lab.path(`/tests/${testId}/readings`))
      .send(body)
  expect((await post(paper({ attachmentId: newId() })).expect(400)).body.errors[0].path).toBe('attachmentId')
  const body = paper({ attachmentId: sheet.value.id })
  const { body: made } = await post(body).expect(201)
  expect(made.reading).toMatchObject({
    typed: '760.0',
    eventAt,
    receivedAt: now.toISOString(),
    transcribed: true,
    attachment: { id: sheet.value.id, name: 'sheet.csv' },
  })
  await post(body).expect(200)
  await post({ ...body, attachmentId: undefined }).expect(409)
  const { rows } = await testApp.services.bench.stepEvents.confirm(technician, {
    stepKey: 'cool',
    kind: 'end',
    rows: [{ id: newId(), testId }],
    instrumentId: null,
    time: { eventAt, eventFrom: 'paper', sentAt: now.toISOString() },
  })
  expect(rows[0]).toMatchObject({ outcome: 'done' })
  const { events } = await testApp.services.bench.view.one(technician, testId)
  expect(events.map(({ stepKey, transcribed }) => [stepKey, transcribed])).toEqual([['cool', true]])
  const { content } = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, (tx) =>
    testApp.services.review.standingIn(tx, design.id),
  )
  expect(content.specimens[0]!.readings[0]!.by).toBe(`${technician.name}, from paper`)
  expect(content.specimens[0]!.events[0]!.note).toBe('from paper')
  expect(await testApp.services.ledger.verify(lab.people.manager.actor, {})).toMatchObject({ whole: true })
})
