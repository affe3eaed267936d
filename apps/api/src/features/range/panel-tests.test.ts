import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading } from '../../../../../tests/support/factories/bench.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { stirring } from '../../../../../tests/support/factories/panel-method.ts'
import { weighBatches } from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

/** Answers its limit with a class. */
const paced = {
  ...stirring,
  key: 'made-up-pace',
  name: 'Made-up pace',
  answers: [{ property: 'wet-stripping', result: 'class', passes: ['slow'] }],
}

let testApp: TestApp
let lab: TestLaboratory
let designId: string
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z', methods: [stirring, paced, ...builtInMethods] })
  lab = await makeLaboratory(testApp)
  designId = (await makeDesign(testApp, lab)).id
})
afterAll(() => testApp.close())

type Row = { testId: string; batchTestId: string; label: string; form: string }
const get = async (path: string) => (await lab.as('technician').get(lab.path(path)).expect(200)).body
const stir = async (testId: string, typed: string, room?: string) => {
  const post = (key: string, value: string) =>
    lab
      .as('technician')
      .post(lab.path(`/tests/${testId}/readings`))
      .send(aReading(testApp, 'stir', key, value))
  if (room) await post('room', room).expect(201)
  return (await post('seconds', typed).expect(201)).body
}
const mixTime = async () =>
  (await get(`/designs/${designId}/range`)).panel.find(({ key }: { key: string }) => key === 'mix-time')
const plan = async (emulsionPercent: string, replicates: number, methodKey = stirring.key): Promise<Row[]> => {
  const body = {
    contents: [{ emulsionPercent, waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
    methods: [{ methodKey, replicates, spares: [] }],
  }
  const planned = await lab
    .as('engineer')
    .post(lab.path(`/designs/${designId}/plan`))
    .set('idempotency-key', newId())
    .send(body)
    .expect(200)
  await weighBatches(testApp, lab, planned.body.items)
  return planned.body.items
}

it('is planned at one content, weighed by its own portion, and answers its limit with the mean of its tests', async () => {
  expect(await mixTime()).toMatchObject({ verdict: 'not tested', value: null })
  const [first, second] = await plan('12', 2)
  expect([first!.label, second!.label, first!.form]).toEqual(['12-1', '12-2', 'cup'])

  const { items: sheets } = await get(`/designs/${designId}/batch-sheets`)
  expect(sheets).toMatchObject([{ form: 'cup', methodKey: stirring.key, dryAggregateG: '100', emulsionPercent: '12' }])
  const batch = await get(`/tests/${first!.batchTestId}`)
  expect(JSON.stringify(batch)).toContain('"12"')

  const done = await stir(first!.testId, '170', '28.5')
  expect(done.results).toMatchObject([
    { key: 'class', value: null, choice: 'Slow', findings: null },
    { key: 'time', value: '170', choice: null, findings: 'The room was at 28.5 °C.' },
  ])
  expect(await mixTime()).toMatchObject({ verdict: 'pass', value: '170', n: 1, at: 'at 12 % emulsion' })

  await stir(second!.testId, '141')
  const answered = await mixTime()
  // (170 + 141) ÷ 2
  expect(answered).toMatchObject({ verdict: 'pass', value: '155.5', unit: 's', n: 2, margin: '35.5' })
  expect(answered.calculation.lines.map(({ op }: { op: string }) => op)).toEqual(['input', 'input', 'mean'])
})

it('waits for a recommendation once there are tests of two contents', async () => {
  const [other] = await plan('14', 1)
  await stir(other!.testId, '90')
  expect(await mixTime()).toMatchObject({ verdict: 'undecided', value: null })
  expect((await get(`/designs/${designId}/batch-sheets`)).items).toHaveLength(2)
})

it('a class that changes with a correction supersedes the one before, and a replay finds no difference', async () => {
  const { items } = await get(`/designs/${designId}/specimens`)
  const { testId } = items.find(({ label }: Row) => label === '12-1')
  const before = await get(`/tests/${testId}`)
  const reading = before.readings.find(({ key }: { key: string }) => key === 'seconds')
  const { time } = aReading(testApp, 'stir', 'seconds', '130')
  const { body } = await lab
    .as('technician')
    .post(lab.path(`/readings/${reading.id}/corrections`))
    .send({ id: newId(), typed: '130', reason: 'Misread', time })
    .expect(201)
  expect(body.results).toMatchObject([
    { key: 'class', choice: 'Quick' },
    { key: 'time', value: '130' },
  ])
  const opened = await get(`/results/${body.results[0].id}`)
  expect(opened).toMatchObject({ choice: 'Quick', value: null, checked: { agrees: true }, earlier: [{ value: null }] })
  const replayed = await testApp.services.ledger.verify(lab.people.manager.actor, {})
  expect(replayed).toMatchObject({ whole: true })
})

it('shows planned and finished tests with their results, what answers each limit, and the chart', async () => {
  const view = await get(`/designs/${designId}/panel-tests`)
  expect(view.tests.map(({ label, state }: Row & { state: string }) => [label, state])).toEqual([
    ['12-1', 'done'],
    ['12-2', 'done'],
    ['14-1', 'done'],
  ])
  expect(view.tests[0].results).toMatchObject([
    { key: 'class', choice: 'Quick' },
    { key: 'time', value: '130' },
  ])
  const mixing = view.properties.find(({ limitKey }: { limitKey: string }) => limitKey === 'mix-time')
  expect(mixing.methods[0]).toEqual({ key: stirring.key, name: stirring.name, place: 'panel' })
  // The room was read for one of the three.
  expect(view.charts).toMatchObject([
    {
      key: 'made-up-pace',
      lines: [{ points: [{ x: '28.5', y: '130' }] }],
      limits: [{ key: 'mix-time', value: '120', unit: 's' }],
    },
  ])
  await lab
    .as('client')
    .get(lab.path(`/designs/${designId}/panel-tests`))
    .expect(403)
})

it('a value entered for the same stands beside with its own verdict, and is a point of the review with what was out of bounds', async () => {
  designId = (await makeDesign(testApp, lab)).id
  const [first, second] = await plan('12', 2)
  await stir(first!.testId, '170', '28.5')
  await stir(second!.testId, '141')
  const outside = {
    ...{ id: newId(), limitKey: 'mix-time', typed: '100', unit: 's', madeBy: 'outside', method: 'TB-113' },
    ...{ laboratoryName: 'Other laboratory', source: 'Report 7', observedOn: '2026-03-02', atEmulsionPercent: '12' },
  }
  const enter = (body: object) =>
    lab
      .as('technician')
      .post(lab.path(`/designs/${designId}/panel-results`))
      .send(body)
      .expect(201)
  await enter(outside)
  // The tests here pass with 155.5 s, the other laboratory's 100 s does not reach 120 s.
  const opposed = await mixTime()
  expect(opposed).toMatchObject({ verdict: 'undecided', value: '155.5', entered: null, beside: { typed: '100' } })
  expect(opposed.sentence).toContain('100 s does not meet the limit')
  const points = async () => {
    const { body } = await lab
      .as('engineer')
      .get(lab.path(`/designs/${designId}/review`))
      .expect(200)
    return body.points.map(({ kind, sentence }: { kind: string; sentence: string }) => [kind, sentence])
  }
  expect(await points()).toContainEqual(['entered', expect.stringContaining('Mix time: 100 s is entered beside')])
  expect(await points()).toContainEqual(['outside-method', expect.stringContaining('The room was at 28.5 °C.')])
  expect(await points()).toContainEqual(['gradation', expect.stringContaining('no gradation is entered')])

  await enter({ ...outside, id: newId(), typed: '130', supersedes: { id: outside.id, reason: 'Misprint' } })
  expect(await mixTime()).toMatchObject({ verdict: 'pass', beside: { typed: '130' } })
  expect(await points()).toContainEqual(['correction', expect.stringContaining('100 s replaced by 130 s')])
  const { content } = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, (tx) =>
    testApp.services.review.standingIn(tx, designId),
  )
  expect(content.enteredResults).toContainEqual(
    expect.objectContaining({ key: 'mix-time', typed: '130', madeBy: 'outside' }),
  )
  expect(content.corrections).toContainEqual(
    expect.objectContaining({ from: '100 s', to: '130 s', reason: 'Misprint' }),
  )
  expect(content.statements.join(' ')).toContain('Supplied by others beside what was tested here: mix time.')

  // Of two contents none speaks yet: what was entered does, and says that there are tests here.
  const [other] = await plan('14', 1)
  await stir(other!.testId, '90')
  const waiting = await mixTime()
  expect(waiting).toMatchObject({ verdict: 'pass', value: '130', entered: { typed: '130' }, beside: null })
  expect(waiting.sentence).toContain('Tested here as well: judged once a content is recommended.')
})

it('a limit is answered by the classes of its tests: met while all are in one that meets it', async () => {
  designId = (await makeDesign(testApp, lab)).id
  const coated = async () =>
    (await get(`/designs/${designId}/range`)).panel.find(({ key }: { key: string }) => key === 'wet-stripping')
  const [slow, quick] = await plan('12', 2, paced.key)
  await stir(slow!.testId, '170')
  expect(await coated()).toMatchObject({
    ...{ verdict: 'pass', value: null, classes: 'Slow (12-1)', n: 1, at: 'at 12 % emulsion' },
  })
  await stir(quick!.testId, '100')
  const failed = await coated()
  expect(failed).toMatchObject({ verdict: 'fail', n: 2, classes: 'Slow (12-1), Quick (12-2)' })
  expect(failed.sentence).toContain('Slow (12-1), Quick (12-2), does not meet what is asked.')
})
