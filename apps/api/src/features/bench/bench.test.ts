import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { SpecimenRow } from '@curebook/contract/designs'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { connect } from '../../../../../tests/support/as-login.ts'
import { aReading, confirm, runDisc, timeNow, weighBatch } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeFactor, makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

const batch = { aggregate: '799.8', filler: '8.0', additive: '1.6', water: '88.0', emulsion: '80.0' }

async function bench(series = aSeries()) {
  const lab = await makeLaboratory(testApp)
  const machine = await makeInstrument(testApp, lab)
  await makeFactor(testApp, lab, machine.id)
  await makeFactor(testApp, lab, machine.id, { typed: '3.06', unit: 'g/ft²' })
  const { design, specimens } = await makePlannedDesign(testApp, lab, series)
  return { lab, machine, design, specimens }
}

const view = (lab: TestLaboratory, testId: string) =>
  testApp.services.bench.view.one(lab.people.technician.actor, testId)
const valueOf = (results: { key: string; unit: string | null; value: string | null }[], key: string, unit: string) =>
  results.find((result) => result.key === key && result.unit === unit)?.value

describe('a disc from batch to result', () => {
  it('gives the content as weighed and the loss in each unit with the machine’s own factor', async () => {
    const { lab, machine, specimens } = await bench()
    const [disc] = specimens
    await weighBatch(testApp, lab, disc!.batchTestId, batch)
    const content = (await view(lab, disc!.batchTestId)).results
    expect(Number(valueOf(content, 'emulsion-content', '% of dry aggregate'))).toBeCloseTo(10.0025, 4)
    expect(Number(valueOf(content, 'residual-binder', '% of dry aggregate'))).toBeCloseTo(6.26157, 4)

    const { value } = await runDisc(testApp, lab, disc!.testId, machine.id, { w1: '759.5', w2: '740.7' })
    expect(value.testState).toBe('done')
    expect(valueOf(value.results, 'loss', 'g')).toBe('18.8')
    expect(valueOf(value.results, 'loss-per-area', 'g/m²')).toBe('618.52')
    expect(valueOf(value.results, 'loss-per-area', 'g/ft²')).toBe('57.528')
    expect(value.windows.every(({ state }) => state === 'met')).toBe(true)
  })

  it('opens a deviation when a window is missed, and counts the specimen until somebody decides', async () => {
    const { lab, machine, specimens } = await bench()
    const { value } = await runDisc(testApp, lab, specimens[0]!.testId, machine.id, {
      w1: '761.2',
      w2: '746.3',
      soakMinutes: 79,
    })
    expect(value.windows.find(({ key }) => key === 'soak')).toMatchObject({ state: 'late', marginSeconds: -240 })
    const { items } = await testApp.services.deviations.list(lab.people.engineer.actor, { open: true, designId: null })
    expect(items).toHaveLength(1)
    expect(items[0]!.text).toContain('4 min too late')
    const decision = {
      id: newId(),
      kind: 'accept',
      reason: 'A longer soak can only raise the loss',
      spareTestId: null,
    } as const
    // Two connections at once: one decides, the other is told so; sent again, the decision is the same.
    const { deviations } = testApp.services
    const sent = [decision, { ...decision, id: newId() }]
    const decide = (input: typeof decision) => deviations.decide(lab.people.engineer.actor, items[0]!.id, input)
    const outcomes = await Promise.allSettled(sent.map(decide))
    expect(outcomes.map(({ status }) => status).toSorted()).toEqual(['fulfilled', 'rejected'])
    const won = outcomes.findIndex(({ status }) => status === 'fulfilled')
    expect((await decide(sent[won]!)).decision).toMatchObject({ kind: 'accept', reason: decision.reason })
    await expect(
      testApp.services.deviations.decide(lab.people.manager.actor, items[0]!.id, {
        id: newId(),
        kind: 'accept',
        reason: 'Again',
        spareTestId: null,
      }),
    ).rejects.toMatchObject({ code: 'conflict' })
  })
})

describe('readings', () => {
  it('keeps a gain as read and refuses the result with the reason', async () => {
    const { lab, machine, specimens } = await bench()
    const { value } = await runDisc(testApp, lab, specimens[0]!.testId, machine.id, { w1: '759.5', w2: '762.6' })
    expect(value.reading.typed).toBe('762.6')
    expect(value.results.find(({ key }) => key === 'loss-per-area')?.refusal?.text).toContain(
      'Gain of 3.1 g: still wet, or not this disc?',
    )
  })

  it('supersedes by correction: the first stays struck through, results follow, earlier ones stay', async () => {
    const { lab, machine, specimens } = await bench()
    const { value } = await runDisc(testApp, lab, specimens[0]!.testId, machine.id, { w1: '780.2', w2: '737.7' })
    const corrected = await testApp.services.bench.readings.correct(lab.people.technician.actor, value.reading.id, {
      id: newId(),
      typed: '773.7',
      reason: 'digits transposed',
      time: timeNow(testApp),
    })
    expect(valueOf(corrected.value.results, 'loss', 'g')).toBe('6.5')
    const { readings, results } = await view(lab, specimens[0]!.testId)
    const after = readings.filter(({ stepKey }) => stepKey === 'weigh-after')
    expect(after.map(({ typed, superseded }) => [typed, superseded])).toEqual([
      ['737.7', true],
      ['773.7', false],
    ])
    expect(after[1]!.supersedes).toMatchObject({ typed: '737.7', reason: 'digits transposed' })
    const result = await testApp.services.results.one(
      lab.people.engineer.actor,
      results.find(({ key, unit }) => key === 'loss-per-area' && unit === 'g/m²')!.id,
    )
    expect(result.checked).toEqual({ agrees: true, differing: [] })
    expect(result.earlier.map(({ value: earlier }) => earlier)).toEqual(['1398.25'])
  })

  it('turns a refused result into a value when the reading is corrected', async () => {
    const { lab, machine, specimens } = await bench()
    const { value } = await runDisc(testApp, lab, specimens[0]!.testId, machine.id, { w1: '759.5', w2: '762.6' })
    const { value: corrected } = await testApp.services.bench.readings.correct(
      lab.people.technician.actor,
      value.reading.id,
      { id: newId(), typed: '752.6', reason: 'mistyped', time: timeNow(testApp) },
    )
    expect(corrected.results.every(({ refusal }) => refusal === null)).toBe(true)
    expect(valueOf(corrected.results, 'loss-per-area', 'g/m²')).toBe('227.01')
  })

  it('refuses what no instrument shows beside the field, and takes units and decimal commas', async () => {
    const { lab, specimens } = await bench()
    const path = lab.path(`/tests/${specimens[0]!.batchTestId}/readings`)
    const wrong = await lab
      .as('technician')
      .post(path)
      .send(aReading(testApp, 'weigh-components', 'aggregate', '8x0'))
      .expect(400)
    expect(wrong.body.errors[0].path).toBe('typed')
    await lab
      .as('technician')
      .post(path)
      .send(aReading(testApp, 'weigh-components', 'aggregate', '800,1 g'))
      .expect(201)
    const { readings } = await view(lab, specimens[0]!.batchTestId)
    expect(readings[0]).toMatchObject({ typed: '800,1 g', value: '800.1', unit: 'g' })
  })

  it('answers the same message again with the same reading, and another under its id with a conflict', async () => {
    const { lab, specimens } = await bench()
    const path = lab.path(`/tests/${specimens[0]!.batchTestId}/readings`)
    const reading = aReading(testApp, 'weigh-components', 'aggregate', '800.0')
    await lab.as('technician').post(path).send(reading).expect(201)
    testApp.clock.advance({ minutes: 1 })
    await lab
      .as('technician')
      .post(path)
      .send({ ...reading, time: { ...reading.time, sentAt: testApp.clock.now().toISOString() } })
      .expect(200)
    const other = await lab
      .as('technician')
      .post(path)
      .send({ ...reading, typed: '801.0' })
      .expect(409)
    expect(other.body.stored.typed).toBe('800.0')
  })

  it('wants a word when it was more than 10 minutes ago, and no time in the future', async () => {
    const { lab, specimens } = await bench()
    const now = testApp.clock.now().getTime()
    const at = (minutes: number) => new Date(now + minutes * 60_000).toISOString()
    const path = lab.path(`/tests/${specimens[0]!.batchTestId}/readings`)
    const late = aReading(testApp, 'weigh-components', 'aggregate', '800.0', {
      time: { eventAt: at(-20), eventFrom: 'at', sentAt: at(0) },
    })
    expect((await lab.as('technician').post(path).send(late).expect(400)).body.errors[0].path).toBe('time.note')
    const ahead = aReading(testApp, 'weigh-components', 'aggregate', '800.0', {
      time: { eventAt: at(20), eventFrom: 'at', sentAt: at(0) },
    })
    expect((await lab.as('technician').post(path).send(ahead).expect(400)).body.errors[0].path).toBe('time.eventAt')
    const told = { ...late, time: { ...late.time, note: 'at the sink' } }
    await lab.as('technician').post(path).send(told).expect(201)
  })
})

describe('two at once, on connections of their own', () => {
  it('keeps one of two first readings of a slot and shows the other both values', async () => {
    const { lab, specimens } = await bench()
    const post = (typed: string) =>
      lab
        .as('technician')
        .post(lab.path(`/tests/${specimens[0]!.batchTestId}/readings`))
        .send(aReading(testApp, 'weigh-components', 'aggregate', typed))
    const answers = await Promise.all([post('800.0'), post('799.0')])
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
    const refused = answers.find(({ status }) => status === 409)!.body
    expect([refused.stored.typed, refused.sent.typed].sort()).toEqual(['799.0', '800.0'])
  })

  it('never ends with all of a batch weighed and no result', async () => {
    const { lab, specimens } = await bench(
      aSeries({ methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 8, spares: [] }] }),
    )
    await Promise.all(
      specimens.flatMap(({ batchTestId }) =>
        Object.entries(batch).map(([component, typed]) =>
          testApp.services.bench.readings.post(
            lab.people.technician.actor,
            batchTestId,
            aReading(testApp, 'weigh-components', component, typed),
          ),
        ),
      ),
    )
    for (const { batchTestId } of specimens)
      expect((await view(lab, batchTestId)).results.filter(({ value }) => value !== null)).toHaveLength(7)
  })

  it('lets the second of two correctors see what the first made of it', async () => {
    const { lab, specimens } = await bench()
    const { value } = await testApp.services.bench.readings.post(
      lab.people.technician.actor,
      specimens[0]!.batchTestId,
      aReading(testApp, 'weigh-components', 'aggregate', '80.0'),
    )
    const correct = (typed: string) =>
      testApp.services.bench.readings.correct(lab.people.technician.actor, value.reading.id, {
        id: newId(),
        typed,
        reason: 'mistyped',
        time: timeNow(testApp),
      })
    const outcomes = await Promise.allSettled([correct('800.0'), correct('801.0')])
    expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(outcomes.find((outcome) => outcome.status === 'rejected')).toMatchObject({ reason: { code: 'conflict' } })
  })

  it('confirms an act once when two confirm it', async () => {
    const { lab, specimens } = await bench()
    const outcomes = await Promise.all([
      confirm(testApp, lab, [specimens[0]!.testId], 'cast', 'start'),
      confirm(testApp, lab, [specimens[0]!.testId], 'cast', 'start'),
    ])
    expect(outcomes.map(({ rows }) => rows[0]!.outcome).sort()).toEqual(['done', 'refused'])
  })

  it('says of one of two first runs on two machines that the curve’s machine is the other', async () => {
    const { lab, machine, design, specimens } = await bench(
      aSeries({ methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 2, spares: [] }] }),
    )
    const other = await makeInstrument(testApp, lab, { code: 'WTA-2' })
    const ids = specimens.slice(0, 2).map(({ testId }) => testId)
    const w1 = () => aReading(testApp, 'weigh-before', 'mass', '760.0')
    for (const id of ids) await testApp.services.bench.readings.post(lab.people.technician.actor, id, w1())
    // Both reach the curve's machine before either has settled it.
    const [holder, watcher] = [await connect(testApp.ownerUrl), await connect(testApp.ownerUrl)]
    await holder.query('begin')
    await holder.query(
      'select from design_method d join design_revision r on r.lab_id = d.lab_id and r.id = d.design_revision_id where r.design_id = $1 for update of d',
      [design.id],
    )
    const runs = Promise.all(
      [machine, other].map(({ id }, index) => confirm(testApp, lab, [ids[index]!], 'abrade', 'start', id)),
    )
    const waiting = "select pid from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'"
    try {
      await vi.waitFor(async () => expect((await watcher.query(waiting)).rows).toHaveLength(2), 20_000)
    } finally {
      await Promise.all([holder.end(), watcher.end()])
    }
    expect((await runs).map(({ rows }) => rows[0]!.outcome)).toEqual(['done', 'done'])
    const deviations = await Promise.all(ids.map(async (id) => (await view(lab, id)).deviations))
    expect(deviations.flat().map(({ text }) => text)).toEqual([
      expect.stringMatching(/run on WTA-[12], the other specimens of this curve on WTA-[12]/),
    ])
  })
})

describe('acts', () => {
  it('reports each row: what cannot be confirmed is refused with the reason, the others go on', async () => {
    const { lab, machine, specimens } = await bench(
      aSeries({ methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 2, spares: [] }] }),
    )
    await confirm(testApp, lab, [specimens[0]!.testId], 'cast', 'start')
    const { rows } = await confirm(
      testApp,
      lab,
      specimens.map(({ testId }) => testId),
      'cast',
      'start',
    )
    expect(rows.map(({ outcome }) => outcome)).toEqual(['refused', 'done'])
    const locked = await confirm(testApp, lab, [specimens[0]!.testId], 'abrade', 'start', machine.id)
    expect(locked.rows[0]!.sentence).toContain('“Weigh after cure (W1)” must be done first')
    const ended = await confirm(testApp, lab, [specimens[0]!.testId], 'cure', 'end')
    expect(ended.rows[0]!.sentence).toContain('confirm “In the oven” first')
  })

  it('asks for the machine of a run, and says when a curve changes machines', async () => {
    const { lab, machine, specimens } = await bench(
      aSeries({ methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 2, spares: [] }] }),
    )
    const ids = specimens.map(({ testId }) => testId)
    for (const id of ids)
      await testApp.services.bench.readings.post(
        lab.people.technician.actor,
        id,
        aReading(testApp, 'weigh-before', 'mass', '760.0'),
      )
    expect((await confirm(testApp, lab, [ids[0]!], 'abrade', 'start')).rows[0]!.sentence).toContain(
      'choose the machine',
    )
    await confirm(testApp, lab, [ids[0]!], 'abrade', 'start', machine.id)
    const other = await makeInstrument(testApp, lab, { code: 'WTA-2' })
    await confirm(testApp, lab, [ids[1]!], 'abrade', 'start', other.id)
    expect((await view(lab, ids[1]!)).deviations[0]!.text).toContain(
      'run on WTA-2, the other specimens of this curve on WTA-1',
    )
  })
})

describe('voids and spares', () => {
  it('voids with a reason and puts the spare in its place, once', async () => {
    const { lab, specimens } = await bench(
      aSeries({
        methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 1, spares: [{ emulsionPercent: '12', count: 1 }] }],
      }),
    )
    const [series, spare] = [
      specimens.find(({ purpose }) => purpose === 'series')!,
      specimens.find(({ purpose }) => purpose === 'spare')!,
    ]
    const { ending } = testApp.services.bench
    const technician = lab.people.technician.actor
    await expect(
      ending.replace(technician, series.testId, { spareTestId: spare.testId, reason: 'Felt tore' }),
    ).rejects.toMatchObject({ code: 'wrong-state' })
    await ending.void(technician, series.testId, {
      id: newId(),
      reason: 'Felt tore at the clamp, stopped at 40 s',
      time: timeNow(testApp),
    })
    const outcomes = await Promise.allSettled(
      [1, 2].map(() => ending.replace(technician, series.testId, { spareTestId: spare.testId, reason: 'Felt tore' })),
    )
    expect(outcomes.every(({ status }) => status === 'fulfilled')).toBe(true)
    expect((await view(lab, series.testId)).voided?.reason).toBe('Felt tore at the clamp, stopped at 40 s')
    const { items } = await testApp.services.designs.specimens(
      lab.people.engineer.actor,
      (await view(lab, series.testId)).design.id,
    )
    expect(items.find(({ testId }) => testId === spare.testId)?.replaces).toBe(series.label)
  })

  it('lets neither a batch nor its specimen wait when the other is lost before casting', async () => {
    const series = aSeries({ methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 2, spares: [] }] })
    const { lab, specimens } = await bench(series)
    const [first, second] = specimens as [SpecimenRow, SpecimenRow]
    const { ending } = testApp.services.bench
    const lost = { reason: 'Not cast: no felt was left', time: timeNow(testApp) }
    await ending.void(lab.people.technician.actor, first.testId, { id: newId(), ...lost })
    await ending.void(lab.people.technician.actor, second.batchTestId, { id: newId(), ...lost })
    for (const id of specimens.flatMap(({ testId, batchTestId }) => [testId, batchTestId]))
      expect((await view(lab, id)).voided?.reason).toBe(lost.reason)
    expect(await testApp.services.ledger.verify(lab.people.auditor.actor, {})).toMatchObject({ whole: true })
  })
})

describe('entered values', () => {
  it('computes the residual binder again when the residue is corrected, and keeps the earlier result', async () => {
    const { lab, design, specimens } = await bench()
    await weighBatch(testApp, lab, specimens[0]!.batchTestId, batch)
    const stored = (await testApp.services.designs.read(lab.people.engineer.actor, design.id)).residue!
    await testApp.services.designs.enterResult(lab.people.engineer.actor, design.id, {
      id: newId(),
      key: 'residue',
      typed: '62.8',
      unit: '%',
      source: 'Certificate 4417',
      observedOn: '2026-03-02',
      supersedes: { id: stored.id, reason: 'Certificate preferred' },
    })
    const { results } = await view(lab, specimens[0]!.batchTestId)
    expect(Number(valueOf(results, 'residual-binder', '% of dry aggregate'))).toBeCloseTo(6.28157, 4)
    const result = await testApp.services.results.one(
      lab.people.engineer.actor,
      results.find(({ key, unit }) => key === 'residual-binder' && unit === '% of dry aggregate')!.id,
    )
    expect(result.earlier).toHaveLength(1)
  })
})
