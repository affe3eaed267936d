import { RecordActSchema } from '@curebook/contract/custody'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { openLinked } from '#features/bench/linked-deviations.repository'
import { rowsSql } from '#platform/sql-rows'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makeDesign, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeFactor, makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import {
  acknowledgeAll,
  makeTestedDesign,
  oneDisc,
  recommend,
  runToTheEnd,
  sign,
  weighBatches,
} from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

/** What would be signed now. */
const contentOf = ({ people }: TestLaboratory, designId: string) =>
  testApp.services.laboratory.inLaboratory(
    people.engineer.actor,
    async (tx) => (await testApp.services.review.standingIn(tx, designId)).content,
  )

const calibrate = ({ people }: TestLaboratory, instrumentId: string, certificate: string) =>
  testApp.services.instruments.addCalibration(people.manager.actor, instrumentId, {
    id: newId(),
    doneOn: testApp.clock.now().toISOString().slice(0, 10),
    validUntil: '2027-03-01',
    certificate,
    passed: true,
  })

const threeDiscs = {
  'wet-track-abrasion-1h': {
    '12': [
      ['762.0', '750.0'],
      ['763.0', '751.4'],
      ['764.0', '752.1'],
    ],
  },
} as const

describe('the instruments of a report', () => {
  it('stand with every calibration kept with the work and the factor computed with; later ones neither show nor undo a check', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens, machineId } = await makeTestedDesign(testApp, lab, {
      weighings: threeDiscs,
      skip: ({ replicate }) => replicate > 1,
    })
    for (const [replicate, certificate] of [
      [2, 'A-1'],
      [3, 'B-2'],
    ] as const) {
      await calibrate(lab, machineId, certificate)
      const disc = specimens.filter((specimen) => specimen.replicate === replicate)
      await weighBatches(testApp, lab, disc)
      await runToTheEnd(testApp, lab, disc, { instrumentId: machineId, weighed: () => ['762.0', '751.0'] })
    }
    await recommend(testApp, lab, design.id)
    await acknowledgeAll(testApp, lab, design.id)
    await sign(testApp, lab, design.id, 'check')

    testApp.clock.advance({ days: 1 })
    const today = testApp.clock.now().toISOString().slice(0, 10)
    await calibrate(lab, machineId, 'C-3')
    const [factor] = (await testApp.services.instruments.read(lab.people.manager.actor, machineId)).factors
    const supersedes = { id: factor!.id, reason: 'Measured again' }
    await makeFactor(testApp, lab, machineId, { typed: '40.1', effectiveFrom: today, supersedes })
    const { instruments } = await contentOf(lab, design.id)
    expect(instruments).toMatchObject([
      {
        code: 'WTA-1',
        factor: '32.9 g/m² for each g, ISSA TB-100, from memory, unverified, from 2026-01-01',
        calibration:
          'certificate A-1, valid until 2027-03-01; certificate B-2, valid until 2027-03-01; part of the work without a calibration on record',
      },
    ])
    expect((await sign(testApp, lab, design.id, 'approve')).state).toBe('approved')
  })

  it('say so where no work on one kept a calibration', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, machineId } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    await calibrate(lab, machineId, 'A-1')
    expect((await contentOf(lab, design.id)).instruments).toMatchObject([{ calibration: 'no calibration on record' }])
  })
})

describe('a window met late where that is a finding', () => {
  it('waits for a word, blocks nothing, and stands in the remark of the specimen', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, {
      weighings: oneDisc,
      hours: { 'dry-back end': 26 },
    })
    await recommend(testApp, lab, design.id)
    const text = 'Dry back: 2 h 0 min past the end of its window; kept as a finding'
    const { points } = await testApp.services.review.read(lab.people.engineer.actor, design.id)
    expect(points.filter(({ kind }) => kind === 'deviation')).toEqual([])
    expect(points.filter(({ kind }) => kind === 'finding')).toMatchObject([
      {
        code: specimens[0]!.code,
        blocking: false,
        acknowledged: null,
        sentence: expect.stringContaining(`: ${text}.`),
      },
    ])
    expect((await contentOf(lab, design.id)).specimens).toMatchObject([{ remark: text }])
    await acknowledgeAll(testApp, lab, design.id)
    await sign(testApp, lab, design.id, 'check')
    expect((await sign(testApp, lab, design.id, 'approve')).state).toBe('approved')
  })

  it('is not told of a specimen that is void, and not where the window was met', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, {
      weighings: oneDisc,
      hours: { 'dry-back end': 26 },
    })
    const findings = async (designId: string) =>
      (await testApp.services.review.read(lab.people.engineer.actor, designId)).points.filter(
        ({ kind }) => kind === 'finding',
      )
    expect(await findings(design.id)).toHaveLength(1)
    await testApp.services.bench.ending.void(lab.people.technician.actor, specimens[0]!.testId, {
      id: newId(),
      reason: 'Felt tore',
      time: timeNow(testApp),
    })
    expect(await findings(design.id)).toEqual([])
    const other = await makeTestedDesign(testApp, lab, { weighings: oneDisc, machines: '2' })
    expect(await findings(other.design.id)).toEqual([])
  })
})

describe('whoever entered residue or moisture', () => {
  it('may not check, also where another has replaced the value, and is named with their part', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    const { engineer, engineer2, manager } = lab.people
    await testApp.services.designs.enterResult(engineer2.actor, design.id, {
      id: newId(),
      key: 'residue',
      typed: '62.5',
      unit: '%',
      source: 'Own test',
      observedOn: testApp.clock.now().toISOString().slice(0, 10),
      supersedes: { id: design.residue!.id, reason: 'Weighed again' },
    })
    await recommend(testApp, lab, design.id)
    await acknowledgeAll(testApp, lab, design.id)
    for (const { actor } of [engineer, engineer2]) {
      const { mayCheck } = await testApp.services.review.read(actor, design.id)
      expect(mayCheck).toEqual({ allowed: false, sentence: 'You did part of this work; somebody else checks it.' })
      await expect(
        sign(testApp, lab, design.id, 'check', actor === engineer.actor ? 'engineer' : 'engineer2'),
      ).rejects.toMatchObject({
        code: 'refused-by-rule',
      })
    }
    expect((await contentOf(lab, design.id)).people).toEqual([
      { name: 'Person engineer', part: 'entered residue or moisture' },
      { name: 'Person engineer2', part: 'entered residue or moisture' },
      { name: 'Person technician', part: 'carried out steps, weighed and read' },
    ])
    expect((await testApp.services.review.read(manager.actor, design.id)).mayCheck.allowed).toBe(true)
  })

  it('has done nothing yet that could be checked', async () => {
    const lab = await makeLaboratory(testApp)
    const { id } = await makeDesign(testApp, lab)
    const { mayCheck } = await testApp.services.review.read(lab.people.manager.actor, id)
    expect(mayCheck).toEqual({ allowed: false, sentence: 'Nothing has been done yet that could be checked.' })
  })
})

describe('the range of a report', () => {
  it('is signed with how its ends were compared, in the words shown beside it', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    const { comparison } = await testApp.services.range.read(lab.people.engineer.actor, design.id)
    expect(comparison).toContain('unrounded, in the limit’s own unit')
    expect((await contentOf(lab, design.id)).range.comparison).toBe(comparison)
  })
})

describe('a deviation of a whole oven or bath', () => {
  it('is told of by each specimen that was inside, on the curve and in its remark, and by no other', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, { weighings: threeDiscs })
    const oven = await makeInstrument(testApp, lab, { code: 'OV-1', kind: 'oven', name: 'Oven, 60 °C' })
    const inside = specimens[1]!
    await testApp.services.laboratory.inLaboratorySql(lab.people.technician.actor, (raw) =>
      openLinked(rowsSql(raw), {
        text: 'OV-1 was out of 60 ± 3 °C',
        instrumentId: oven.id,
        tests: [{ testId: inside.testId, loadId: null }],
      }),
    )
    const { curves } = await testApp.services.range.read(lab.people.engineer.actor, design.id)
    const told = curves.flatMap(({ points }) =>
      points.filter(({ flags }) => flags.includes('deviation, see list')).map(({ testId }) => testId),
    )
    expect(told).toEqual([inside.testId])
    const signed = (await contentOf(lab, design.id)).specimens
    expect(signed.map(({ code, remark }) => [code, remark])).toEqual(
      specimens.map(({ code }) => [code, code === inside.code ? 'deviation, see list' : '']),
    )
  })
})

describe('a gap in custody', () => {
  it('of a material, of a piece of it or of a batch stands in the review of the design, and no other', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    const other = await makePlannedDesign(testApp, lab, aSeries())
    const technician = lab.people.technician.actor
    const { custody } = testApp.services
    const act = async (itemId: string, act: Record<string, unknown>) => {
      const after = (await custody.read(technician, itemId)).custody.lastEventId
      const sent = RecordActSchema.parse({ id: newId(), after, time: timeNow(testApp), ...act })
      return (await custody.record(technician, itemId, sent)).value
    }
    const sample = design.materials.aggregate.id
    const bag = newId()
    await act(sample, {
      kind: 'split',
      weighed: '45.0 kg',
      pieces: [{ id: bag, kind: 'bag', mass: '800.0' }],
      loss: '0',
    })
    await act(sample, { kind: 'gap', note: 'Lay about at the gate' })
    await act(bag, { kind: 'gap', note: 'In the yard over night' })
    await act(specimens[0]!.itemId, { kind: 'taken' })
    await act(specimens[0]!.itemId, { kind: 'gap', note: 'Lay about in the corridor' })
    const told = async (designId: string) =>
      (await testApp.services.review.read(lab.people.engineer.actor, designId)).points
        .filter(({ kind }) => kind === 'deviation')
        .map(({ sentence, blocking }) => [/gate|yard|corridor/.exec(sentence)?.[0], blocking])
        .sort()
    expect(await told(design.id)).toEqual([
      ['corridor', true],
      ['gate', true],
      ['yard', true],
    ])
    expect(await told(other.design.id)).toEqual([])
  })
})
