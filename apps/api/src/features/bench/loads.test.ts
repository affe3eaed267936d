import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { SpecimenRow } from '@curebook/contract/designs'
import type { LoadMoved, Ovens } from '@curebook/contract/loads'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { confirm, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

/** Cast discs of two projects, an oven and a bath. */
async function ovens() {
  const lab = await makeLaboratory(testApp)
  const oven = await makeInstrument(testApp, lab, { code: 'OV-1', kind: 'oven', name: 'Oven, 60 °C' })
  const bath = await makeInstrument(testApp, lab, { code: 'BATH-1', kind: 'bath', name: 'Bath, 25 °C' })
  const series = aSeries({ contents: ['10', '14'] })
  const first = await makePlannedDesign(testApp, lab, series, { name: 'First' })
  const second = await makePlannedDesign(testApp, lab, aSeries(), { name: 'Second' })
  const specimens = [...first.specimens, ...second.specimens]
  const ids = specimens.map(({ testId }) => testId)
  await confirm(testApp, lab, ids, 'cast', 'start')
  testApp.clock.advance({ hours: 1 })
  return { lab, oven, bath, specimens, ids, designs: [first.design.id, second.design.id] as const }
}

const open = async (lab: TestLaboratory, instrumentId: string) => {
  const body = { id: newId(), instrumentId, time: timeNow(testApp) }
  return (await lab.as('technician').post(lab.path('/loads')).send(body).expect(201)).body.id as string
}
const rowsOf = (specimens: readonly Pick<SpecimenRow, 'testId'>[], stepKey = 'cure') =>
  specimens.map(({ testId }) => ({ id: newId(), testId, stepKey }))
const move = async (lab: TestLaboratory, load: string, way: 'in' | 'out', body: object, url?: string) =>
  (
    await lab
      .as('technician', url)
      .post(lab.path(`/loads/${load}/${way}`))
      .send({ time: timeNow(testApp), ...body })
      .expect(200)
  ).body as LoadMoved
const weigh = (lab: TestLaboratory, load: string, testId: string, typed: string) =>
  lab
    .as('technician')
    .post(lab.path(`/loads/${load}/readings`))
    .send({ id: newId(), key: 'warm-mass', testId, typed, time: timeNow(testApp) })
const list = async (lab: TestLaboratory) => (await lab.as('auditor').get(lab.path('/loads')).expect(200)).body as Ovens
const openDeviations = async (lab: TestLaboratory) =>
  (await testApp.services.deviations.list(lab.people.engineer.actor, { open: true, designId: null })).items

describe('a load', () => {
  it('pressed again after a part was refused, the put-in and its temperature answer with themselves', async () => {
    const { lab, oven, specimens } = await ovens()
    const load = await open(lab, oven.id)
    const [first, ...others] = rowsOf(specimens)
    await move(lab, load, 'in', { rows: [first] })
    const elsewhere = await open(lab, oven.id)
    const body = {
      rows: [{ ...first!, id: newId() }, ...others],
      time: timeNow(testApp),
      temperature: { id: newId(), typed: '60.4' },
    }
    const partly = await move(lab, elsewhere, 'in', body)
    expect(partly.outcome.rows.map(({ outcome }) => outcome).sort()).toEqual(['done', 'done', 'refused'])
    testApp.clock.advance({ minutes: 1 })
    const again = await move(lab, elsewhere, 'in', { ...body, time: { ...body.time, sentAt: timeNow(testApp).sentAt } })
    expect(again.outcome).toEqual(partly.outcome)
    expect(again.load.temperatures).toEqual(partly.load.temperatures)
  })
  it('takes many specimens of several projects in with one confirmation; each keeps its own act', async () => {
    const { lab, oven, specimens, ids } = await ovens()
    expect((await list(lab)).waiting.map(({ testId }) => testId).sort()).toEqual([...ids].sort())
    const load = await open(lab, oven.id)
    const body = {
      rows: rowsOf(specimens),
      time: timeNow(testApp),
      temperature: { id: newId(), typed: '60,4' },
    }
    const moved = await move(lab, load, 'in', body)
    expect(moved.outcome.rows.map(({ outcome }) => outcome)).toEqual(['done', 'done', 'done'])
    expect(moved.load.temperatures).toMatchObject([{ typed: '60,4', unit: '°C' }])
    // The same message again is the same act, and the same temperature.
    const again = await move(lab, load, 'in', body)
    expect(again.outcome.rows.every(({ outcome }) => outcome === 'done')).toBe(true)
    expect(again.load.temperatures).toHaveLength(1)

    const { instruments, waiting, unplaced } = await list(lab)
    expect([waiting, unplaced]).toEqual([[], []])
    const shown = instruments.find(({ code }) => code === 'OV-1')!.loads
    expect(shown).toHaveLength(1)
    expect(new Set(shown[0]!.specimens.map(({ designName }) => designName))).toEqual(new Set(['First', 'Second']))
    expect(shown[0]!.specimens.every(({ stepTitle, endsHere }) => stepTitle === 'Cure in the oven' && endsHere)).toBe(
      true,
    )
    const { events } = await testApp.services.bench.view.one(lab.people.technician.actor, ids[0]!)
    expect(events.map(({ stepKey }) => stepKey)).toEqual(['cast', 'cure'])
  })

  it('refuses what the bench refuses, and what does not belong there, row by row', async () => {
    const { lab, oven, bath, specimens } = await ovens()
    const load = await open(lab, oven.id)
    await move(lab, load, 'in', { rows: rowsOf(specimens.slice(0, 1)) })
    const twice = await move(lab, load, 'in', { rows: rowsOf(specimens.slice(0, 2)) })
    expect(twice.outcome.rows.map(({ outcome }) => outcome)).toEqual(['refused', 'done'])
    expect(twice.outcome.rows[0]!.sentence).toContain('“In the oven” is confirmed already')
    const inBath = await open(lab, bath.id)
    const wrong = await move(lab, inBath, 'in', { rows: rowsOf(specimens.slice(2)) })
    expect(wrong.outcome.rows[0]!.sentence).toContain('is not done in a bath')
    const soaked = await move(lab, inBath, 'in', { rows: rowsOf(specimens.slice(2), 'soak') })
    expect(soaked.outcome.rows[0]!.sentence).toContain('must be done first')
    const notInside = await move(lab, load, 'out', { rows: rowsOf(specimens.slice(2)) })
    expect(notInside.outcome.rows[0]!.sentence).toContain('not in this load')
    await lab
      .as('technician')
      .post(lab.path('/loads'))
      .send({
        id: newId(),
        instrumentId: (await makeInstrument(testApp, lab, { code: 'WTA-1' })).id,
        time: timeNow(testApp),
      })
      .expect(400)
  })

  it('is opened by what is put in, and sent twice at once it is one load, one act each, and one temperature', async () => {
    const { lab, oven, bath, specimens } = await ovens()
    const load = newId()
    const body = {
      opens: oven.id,
      rows: rowsOf(specimens),
      time: timeNow(testApp),
      temperature: { id: newId(), typed: '60.4' },
    }
    const both = await Promise.all([move(lab, load, 'in', body), move(lab, load, 'in', body)])
    for (const { outcome } of both) expect(outcome.rows.map((row) => row.outcome)).toEqual(['done', 'done', 'done'])
    testApp.clock.advance({ hours: 20 })
    const out = { rows: rowsOf(specimens), time: timeNow(testApp) }
    const [one, other] = await Promise.all([move(lab, load, 'out', out), move(lab, load, 'out', out)])
    expect([one!, other!].flatMap(({ outcome }) => outcome.rows.map((row) => row.outcome))).toEqual(
      Array.from({ length: 6 }, () => 'done'),
    )
    expect([one!.deviationId, other!.deviationId].filter((id) => id !== null)).toHaveLength(1)
    const { body: read } = await lab
      .as('auditor')
      .get(lab.path(`/loads/${load}`))
      .expect(200)
    expect(read).toMatchObject({ instrumentId: oven.id, temperatures: [{ typed: '60.4' }] })
    for (const { testId } of specimens) {
      const { events } = await testApp.services.bench.view.one(lab.people.technician.actor, testId)
      expect(events.map(({ stepKey, kind }) => `${stepKey}/${kind}`)).toEqual(['cast/start', 'cure/start', 'cure/end'])
    }
    await lab
      .as('technician')
      .post(lab.path(`/loads/${load}/in`))
      .send({ ...body, opens: bath.id })
      .expect(409)
  })

  it('of which every specimen was refused opens nothing and keeps no temperature, and answers alike when it comes again', async () => {
    const { lab, oven, specimens } = await ovens()
    const into = await open(lab, oven.id)
    await move(lab, into, 'in', { rows: rowsOf(specimens.slice(0, 2)) })
    const load = newId()
    const body = {
      opens: oven.id,
      rows: rowsOf(specimens.slice(0, 2)),
      time: timeNow(testApp),
      temperature: { id: newId(), typed: '60.4' },
    }
    const [first, second] = await Promise.all([move(lab, load, 'in', body), move(lab, load, 'in', body)])
    expect(first!.outcome.rows.map(({ outcome }) => outcome)).toEqual(['refused', 'refused'])
    expect(first!.load).toMatchObject({ id: load, specimens: [], temperatures: [] })
    expect(second).toEqual(first)
    expect(await move(lab, load, 'in', body)).toEqual(first)
    await lab
      .as('auditor')
      .get(lab.path(`/loads/${load}`))
      .expect(404)
    // Into a load that stands nothing is kept either.
    const twice = await move(lab, into, 'in', { ...body, opens: null })
    expect(twice.load.temperatures).toEqual([])
    expect((await list(lab)).instruments.flatMap((one) => one.loads.map(({ id }) => id))).toEqual([into])
    // Under its id it is opened still by what does go in, with the same reading.
    const third = await move(lab, load, 'in', { ...body, rows: rowsOf(specimens.slice(2)) })
    expect(third.outcome.rows).toMatchObject([{ outcome: 'done' }])
    expect(third.load).toMatchObject({ id: load, specimens: [{}], temperatures: [{ typed: '60.4' }] })
    expect((await testApp.services.ledger.verify(lab.people.manager.actor, {})).whole).toBe(true)
  })

  it('out of which nothing came keeps no temperature of it, and answers alike when it comes again', async () => {
    const { lab, oven, specimens } = await ovens()
    const load = await open(lab, oven.id)
    await move(lab, load, 'in', { rows: rowsOf(specimens.slice(0, 1)) })
    const body = {
      rows: rowsOf(specimens.slice(1)),
      time: timeNow(testApp),
      temperature: { id: newId(), typed: '60.4' },
    }
    const [first, second] = await Promise.all([move(lab, load, 'out', body), move(lab, load, 'out', body)])
    expect(first!.outcome.rows.map(({ outcome }) => outcome)).toEqual(['refused', 'refused'])
    expect(first).toMatchObject({ deviationId: null, load: { id: load, specimens: [{}], temperatures: [] } })
    expect([second, await move(lab, load, 'out', body)]).toEqual([first, first])
    // The same reading goes with what does come out.
    const third = await move(lab, load, 'out', { ...body, rows: rowsOf(specimens.slice(0, 1)) })
    expect(third.load).toMatchObject({ specimens: [], temperatures: [{ typed: '60.4' }] })
    expect((await testApp.services.ledger.verify(lab.people.manager.actor, {})).whole).toBe(true)
  })

  it('stands apart from what was put in at the bench with the oven named, and from what nobody said where', async () => {
    const { lab, oven, ids } = await ovens()
    await confirm(testApp, lab, ids.slice(0, 1), 'cure', 'start', oven.id)
    await confirm(testApp, lab, ids.slice(1, 2), 'cure', 'start')
    await testApp.services.instruments.update(lab.people.manager.actor, oven.id, { state: 'out' }, oven.version)
    const { instruments, unplaced, waiting } = await list(lab)
    const shown = instruments.find(({ id }) => id === oven.id)!
    expect(shown.loads).toEqual([])
    expect(shown.alone.map(({ testId }) => testId)).toEqual(ids.slice(0, 1))
    expect(unplaced.map(({ testId, kind }) => [testId, kind])).toEqual([[ids[1], 'oven']])
    expect(waiting.map(({ testId }) => testId)).toEqual(ids.slice(2))
  })

  it('put in by two people at once takes each specimen in once', async () => {
    const { lab, oven, specimens } = await ovens()
    const loads = [await open(lab, oven.id), await open(lab, oven.id)]
    const moved = await Promise.all(loads.map((load) => move(lab, load, 'in', { rows: rowsOf(specimens) })))
    const outcomes = moved.flatMap(({ outcome }) => outcome.rows.map((row) => row.outcome))
    expect(outcomes.toSorted()).toEqual(['done', 'done', 'done', 'refused', 'refused', 'refused'])
    const { instruments } = await list(lab)
    expect(instruments.flatMap((one) => one.loads.flatMap((load) => load.specimens))).toHaveLength(3)
  })
})

describe('constant mass of a load', () => {
  it('is shown by its check specimens, warm against warm, and lets the load out without a deviation', async () => {
    const { lab, oven, specimens } = await ovens()
    const [rich, other, third] = [specimens[1]!, specimens[0]!, specimens[2]!]
    const load = await open(lab, oven.id)
    await move(lab, load, 'in', { rows: rowsOf(specimens) })
    testApp.clock.advance({ hours: 18 })
    await weigh(lab, load, rich.testId, '735.0').expect(201)
    testApp.clock.advance({ hours: 1 })
    const { body: wet } = await weigh(lab, load, rich.testId, '734.4').expect(201)
    expect(wet.constantMass.reached).toBe(false)
    expect(wet.checks[0].sentence).toContain('735.0 → 734.4 g, 0.6 g in 60 min, more than 0.2 g: still drying.')
    testApp.clock.advance({ hours: 1 })
    await weigh(lab, load, rich.testId, '734.3').expect(201)
    const { body: second } = await weigh(lab, load, other.testId, '768.2').expect(201)
    expect(second.constantMass.reached).toBe(false)
    const refused = await weigh(lab, load, third.testId, '700.0').expect(400)
    expect(refused.body.errors[0].message).toContain('are this load’s check specimens')
    testApp.clock.advance({ hours: 1 })
    await weigh(lab, load, rich.testId, '734.3').expect(201)
    const { body: dry } = await weigh(lab, load, other.testId, '768.2').expect(201)
    expect(dry.constantMass.reached).toBe(true)
    const moved = await move(lab, load, 'out', { rows: rowsOf(specimens) })
    expect(moved.deviationId).toBeNull()
    expect(moved.load.specimens).toEqual([])
    expect((await testApp.services.ledger.verify(lab.people.manager.actor, {})).whole).toBe(true)
    expect(await openDeviations(lab)).toEqual([])
  })

  it('is judged by what stands: a slip put right keeps its time, the first stays on record, of two corrections one stands', async () => {
    const { lab, oven, specimens } = await ovens()
    const { testId } = specimens[1]!
    const load = await open(lab, oven.id)
    await move(lab, load, 'in', { rows: rowsOf(specimens) })
    await weigh(lab, load, testId, '753.4').expect(201)
    testApp.clock.advance({ hours: 1 })
    const { body: wrong } = await weigh(lab, load, testId, '735.3').expect(201)
    expect(wrong.constantMass.reached).toBe(false)
    const [slip] = wrong.checks[0].weighings
    const put = (typed: string, more: object = {}) =>
      lab
        .as('technician2')
        .post(lab.path(`/loads/${load}/readings`))
        .send({
          id: newId(),
          key: 'warm-mass',
          testId,
          typed,
          time: timeNow(testApp),
          supersedes: { id: slip.id, reason: 'digits transposed' },
          ...more,
        })
    await put('735.4', { testId: specimens[0]!.testId }).expect(400)
    const answers = await Promise.all([put('735.4'), put('735.4')])
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
    const { body: right } = answers.find(({ status }) => status === 201)!
    expect(right.constantMass.reached).toBe(true)
    expect(right.checks[0].weighings[0]).toMatchObject({
      typed: '735.4',
      at: slip.at,
      by: { name: 'Person technician2' },
    })
    expect((await testApp.services.ledger.verify(lab.people.manager.actor, {})).whole).toBe(true)
  })

  it('not reached is kept as one deviation that stands with each design, and is accepted once', async () => {
    const { lab, oven, specimens, designs } = await ovens()
    const load = await open(lab, oven.id)
    await move(lab, load, 'in', { rows: rowsOf(specimens) })
    testApp.clock.advance({ hours: 20 })
    const checked = specimens[0]!
    await weigh(lab, load, checked.testId, '735.0').expect(201)
    testApp.clock.advance({ hours: 1 })
    await weigh(lab, load, checked.testId, '734.4').expect(201)
    const body = { rows: rowsOf(specimens), time: timeNow(testApp), word: 'Oven needed' }
    const moved = await move(lab, load, 'out', body)
    expect(moved.outcome.rows.every(({ outcome }) => outcome === 'done')).toBe(true)
    expect((await move(lab, load, 'out', body)).deviationId).toBeNull()
    const [deviation, ...others] = await openDeviations(lab)
    expect(others).toEqual([])
    expect(deviation).toMatchObject({ id: moved.deviationId, kind: 'condition', testId: null })
    expect(deviation!.text.replace(/on \w+ \d+ \w+ \d+:\d+/, 'on …')).toBe(
      'OV-1: 3 specimens let out without constant mass on … after 21 h 0 min, by Person technician. A check specimen: 0.6 g in 60 min, more than 0.2 g: still drying.',
    )
    // The free word stays inside the laboratory: it may name another client, and is printed for none.
    expect(deviation!.insideWord).toBe('Oven needed')
    expect(deviation!.specimens).toHaveLength(3)
    const { code, label, testId } = specimens[2]!
    for (const design of designs) {
      const { points } = await testApp.services.review.read(lab.people.engineer.actor, design)
      const [point] = points.filter(({ kind }) => kind === 'deviation')
      expect(point).toMatchObject({ blocking: true, key: `deviation:${deviation!.id}` })
      // Each design names its own specimens, never another client’s.
      expect(point!.sentence.includes(`${label} (${code})`)).toBe(design === designs[1])
      expect(point!.sentence.includes(checked.code)).toBe(design === designs[0])
      expect(point!.sentence).not.toMatch(/735|734|Oven needed/)
    }
    const { deviations } = await testApp.services.bench.view.one(lab.people.technician.actor, testId)
    expect(deviations).toMatchObject([
      { id: deviation!.id, isOfTest: false, designs: 2, insideWord: 'Oven needed', waiting: null },
    ])
    await testApp.services.deviations.decide(lab.people.engineer.actor, deviation!.id, {
      id: newId(),
      kind: 'accept',
      reason: 'Dried on in the other oven',
      spareTestId: null,
    })
    expect(await openDeviations(lab)).toEqual([])
  })

  it('is not reached for what was put in after the weighing that is compared with', async () => {
    const { lab, oven, specimens } = await ovens()
    const [first, ...later] = specimens as [SpecimenRow, ...SpecimenRow[]]
    const load = await open(lab, oven.id)
    await move(lab, load, 'in', { rows: rowsOf([first]) })
    testApp.clock.advance({ hours: 18 })
    await weigh(lab, load, first.testId, '735.0').expect(201)
    testApp.clock.advance({ minutes: 10 })
    await move(lab, load, 'in', { rows: rowsOf(later) })
    testApp.clock.advance({ minutes: 50 })
    const { body } = await weigh(lab, load, first.testId, '735.0').expect(201)
    expect(body.checks[0].state).toBe('constant')
    expect(body.constantMass).toEqual({
      reached: false,
      sentence: `${body.checks[0].sentence} 2 specimens were put in after the weighing it is compared with.`,
    })
    testApp.clock.advance({ hours: 1 })
    const { body: dry } = await weigh(lab, load, first.testId, '735.0').expect(201)
    expect(dry.constantMass.reached).toBe(true)
  })

  it('not reached is kept as one deviation too when the end is confirmed at the bench', async () => {
    const { lab, oven, specimens, ids } = await ovens()
    const load = await open(lab, oven.id)
    await move(lab, load, 'in', { rows: rowsOf(specimens) })
    testApp.clock.advance({ hours: 20 })
    const act = {
      stepKey: 'cure',
      kind: 'end' as const,
      rows: ids.slice(0, 2).map((testId) => ({ id: newId(), testId })),
      instrumentId: null,
      time: timeNow(testApp),
    }
    const technician = lab.people.technician.actor
    const answers = await Promise.all([0, 1].map(() => testApp.services.bench.stepEvents.confirm(technician, act)))
    expect(answers.flatMap(({ rows }) => rows.map(({ outcome }) => outcome))).toEqual(Array(4).fill('done'))
    const [deviation, ...others] = await openDeviations(lab)
    expect(others).toEqual([])
    expect(deviation!.text).toContain('OV-1: 2 specimens let out without constant mass on ')
    expect(deviation!.specimens.map(({ testId }) => testId).sort()).toEqual(ids.slice(0, 2).sort())
  })
})
