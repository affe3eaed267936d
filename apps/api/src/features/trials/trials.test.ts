import type { Design } from '@curebook/contract/designs'
import { cupBreaks, cupConsistencies, type TrialCup, type TrialCups } from '@curebook/contract/trials'
import { mixBreaks, mixConsistencies } from '@curebook/trade/methods/trial-mix-words'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { aReading } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makeDesign, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-03T13:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

/** Cup 3 of the practice day. */
const cup = (more: object = {}) => ({
  id: newId(),
  emulsion: '12',
  water: '10',
  additive: '0,2',
  filler: '1.0',
  temperature: '25.1',
  mixTime: '172',
  mixTimeFrom: 'stopwatch',
  coated: '100',
  clearWater: '18',
  startedAt: '2026-03-03T13:20:00Z',
  remark: 'good, creamy',
  ...more,
})
const post = (id: string, body: object, url?: string) =>
  lab
    .as('technician', url)
    .post(lab.path(`/designs/${id}/trial-cups`))
    .send(body)
const read = async (id: string): Promise<TrialCups> =>
  (
    await lab
      .as('technician')
      .get(lab.path(`/designs/${id}/trial-cups`))
      .expect(200)
  ).body
const use = (id: string, body: object, url?: string) =>
  lab
    .as('engineer', url)
    .post(lab.path(`/designs/${id}/trial-base`))
    .send({ id: newId(), ...body })
const designOf = (id: string): Promise<Design> => testApp.services.designs.read(lab.people.engineer.actor, id)

describe('a trial-mix cup', () => {
  it('is kept as typed, numbered in the order of mixing, and judged by the mix time asked for', async () => {
    const { id } = await makeDesign(testApp, lab)
    const body = cup()
    const first = await post(id, body).expect(201)
    expect(first.body).toMatchObject({
      number: 1,
      emulsion: { typed: '12', value: '12' },
      additive: { typed: '0,2', value: '0.2' },
      mixTime: { typed: '172', value: '172' },
      mixTimeFrom: 'stopwatch',
      startedAt: '2026-03-03T13:20:00.000Z',
      meets: { verdict: 'pass' },
      by: { name: 'Person technician' },
      supersedes: null,
    })
    await post(id, body).expect(200, first.body)
    // Cup 8 of the practice day: below 120 s at 35 °C; and one on the limit.
    await post(id, cup({ mixTime: '118', temperature: '35.2' })).expect(201)
    await post(id, cup({ mixTime: '2 min', additive: '' })).expect(201)
    const { cups, mixTimeLimit, base, sharesStand } = await read(id)
    expect(cups.map(({ number, meets }) => [number, meets?.verdict])).toEqual([
      [1, 'pass'],
      [2, 'fail'],
      [3, 'pass'],
    ])
    expect(cups[2]).toMatchObject({ mixTime: { typed: '2 min', value: '120' }, additive: { typed: '0', value: '0' } })
    expect(mixTimeLimit).toEqual({ words: 'at least 120 s, at 25 °C', value: '120', unit: 's' })
    expect([base, sharesStand]).toEqual([null, null])
  })

  it('says how it looked and broke in the words of the hand trial mix, and one that never broke is not too short', async () => {
    const { id } = await makeDesign(testApp, lab)
    // The words of the contract are those of the method and of the table's checks.
    expect(cupConsistencies).toEqual(mixConsistencies.map(({ key }) => key))
    expect(cupBreaks).toEqual(mixBreaks.map(({ key }) => key))
    for (const consistency of cupConsistencies)
      expect((await post(id, cup({ consistency })).expect(201)).body).toMatchObject({ consistency, broke: null })
    for (const broke of cupBreaks)
      expect((await post(id, cup({ broke, mixTime: '60' })).expect(201)).body).toMatchObject({
        broke,
        meets: { verdict: broke === 'not-broken' ? 'undecided' : 'fail' },
      })
    const { body: longer } = await post(id, cup({ broke: 'not-broken', mixTime: '300' })).expect(201)
    expect(longer.meets.verdict).toBe('pass')
    await post(id, cup({ consistency: 'lumpy' })).expect(400)
  })

  it('gets the word of how it broke later without a reason; another word for it needs one', async () => {
    const { id } = await makeDesign(testApp, lab)
    const { body: first } = await post(id, cup({ consistency: 'creamy' })).expect(201)
    const { body: second } = await post(
      id,
      cup({ consistency: 'creamy', broke: 'lumps', supersedes: { id: first.id } }),
    ).expect(201)
    expect(second).toMatchObject({ broke: 'lumps', supersedes: { reason: 'Completed' } })
    const { body: problem } = await post(
      id,
      cup({ consistency: 'stiff', broke: 'lumps', supersedes: { id: second.id } }),
    ).expect(400)
    expect(problem.errors).toMatchObject([{ path: 'supersedes.reason' }])
  })

  it('is refused beside each field that cannot be, and never for being unusual', async () => {
    const { id } = await makeDesign(testApp, lab)
    const { body } = await post(
      id,
      cup({
        emulsion: '0',
        water: 'some',
        additive: '101',
        temperature: 'warm',
        mixTime: '-4',
        coated: '120',
        clearWater: 'x',
      }),
    ).expect(400)
    expect(body.errors.map(({ path }: { path: string }) => path).toSorted()).toEqual([
      'additive',
      'clearWater',
      'coated',
      'emulsion',
      'mixTime',
      'temperature',
      'water',
    ])
    await post(id, cup({ mixTime: '5', coated: '10', temperature: '-2', clearWater: '600' })).expect(201)
  })

  it('is completed without a reason and corrected with one; the chain keeps what stood', async () => {
    const { id } = await makeDesign(testApp, lab)
    const { body: first } = await post(id, cup({ clearWater: '', remark: '' })).expect(201)
    expect(first.clearWater).toBeNull()
    const completed = await post(id, cup({ supersedes: { id: first.id } })).expect(201)
    expect(completed.body).toMatchObject({
      number: 1,
      clearWater: { typed: '18' },
      supersedes: { id: first.id, reason: 'Completed' },
    })
    const change = { mixTime: '170', mixTimeFrom: 'typed', supersedes: { id: completed.body.id } }
    const { body: problem } = await post(id, cup(change)).expect(400)
    expect(problem.errors).toMatchObject([{ path: 'supersedes.reason' }])
    // A value taken away is a change too.
    await post(id, cup({ coated: '', supersedes: { id: completed.body.id } })).expect(400)
    const supersedes = { id: completed.body.id, reason: 'Stopwatch started late' }
    await post(id, cup({ ...change, supersedes })).expect(201)
    expect((await read(id)).cups).toMatchObject([{ number: 1, mixTime: { typed: '170' }, supersedes }])
    await post(id, cup({ supersedes: { id: first.id, reason: 'Again' } })).expect(409)
  })

  it('two at once through two servers get two numbers; of two corrections at once one stands', async () => {
    const { id } = await makeDesign(testApp, lab)
    const other = await testApp.startAnother()
    try {
      const cups = await Promise.all([post(id, cup()), post(id, cup(), other.url)])
      expect(cups.map(({ status, body }) => [status, body.number]).toSorted()).toEqual([
        [201, 1],
        [201, 2],
      ])
      const supersedes = { id: cups[0]!.body.id, reason: 'Misread' }
      const corrections = await Promise.all([
        post(id, cup({ mixTime: '170', supersedes })),
        post(id, cup({ mixTime: '171', supersedes }), other.url),
      ])
      expect(corrections.map(({ status }) => status).toSorted()).toEqual([201, 409])
      expect((await read(id)).cups.map(({ number }) => number)).toEqual([1, 2])
    } finally {
      await other.close()
    }
  })

  it('is of its laboratory, and of a revision that is open', async () => {
    const { id, revisionId } = await makeDesign(testApp, lab)
    const neighbour = await makeLaboratory(testApp)
    await neighbour
      .as('technician')
      .get(neighbour.path(`/designs/${id}/trial-cups`))
      .expect(404)
    await lab
      .as('auditor')
      .post(lab.path(`/designs/${id}/trial-cups`))
      .send(cup())
      .expect(403)
    await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
      prisma.designRevision.updateMany({ where: { labId: lab.labId, id: revisionId }, data: { state: 'in-review' } }),
    )
    await post(id, cup()).expect(409)
  })
})

describe('the cup that the series is mixed after', () => {
  const contents = ['10', '11', '12', '13', '14']
  const waters = ['11.0', '10.5', '10.0', '9.5', '9.0']
  const sharesOf = ({ mixes }: Design, more: object = {}) =>
    mixes.map(({ id }, index) => ({
      mixId: id,
      waterPercent: waters[index] ?? '10',
      additivePercent: '0.3',
      fillerPercent: '1',
      ...more,
    }))
  const entered = async (id: string): Promise<TrialCup> => (await post(id, cup()).expect(201)).body

  it('gives each planned content its water, additive and filler, and the batch sheets anew', async () => {
    const { design } = await makePlannedDesign(testApp, lab, aSeries({ contents }))
    const { id: cupId } = await entered(design.id)
    const { body } = await use(design.id, { cupId, contents: sharesOf(design) }).expect(201)
    expect(body).toMatchObject({ cupId, number: 1, by: { name: 'Person engineer' } })
    const after = await designOf(design.id)
    expect(after.mixes.map((mix) => [mix.emulsionPercent, mix.waterPercent, mix.additivePercent])).toEqual(
      contents.map((content, index) => [content, waters[index], '0.3']),
    )
    expect(after.version).toBeGreaterThan(design.version)
    const { items: sheets } = await testApp.services.designs.batchSheets(lab.people.engineer.actor, design.id)
    // 800 g of dry aggregate at 11.0 and 9.0 % water
    const water = sheets.map(({ rows }) => Number(rows.find(({ component }) => component === 'water')!.targetG))
    expect([water[0], water.at(-1)]).toEqual([88, 72])
    const stored = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
      prisma.mixComponent.findMany({ where: { labId: lab.labId, mixId: after.mixes[0]!.id, kind: 'water' } }),
    )
    expect(stored.map(({ targetG }) => targetG.toFixed())).toEqual(['88'])
    expect((await read(design.id)).base).toMatchObject({ cupId, number: 1 })
  })

  it('is chosen before a series is planned, and kept with who chose it', async () => {
    const { id } = await makeDesign(testApp, lab)
    const { id: cupId } = await entered(id)
    const request = { id: newId(), cupId, contents: [] }
    await use(id, request).expect(201)
    await use(id, request).expect(200)
    expect((await read(id)).base).toMatchObject({ cupId, by: { name: 'Person engineer' } })
    await lab
      .as('technician')
      .post(lab.path(`/designs/${id}/trial-base`))
      .send({ ...request, id: newId() })
      .expect(403)
  })

  it('names each content once, with shares that can be, and a cup that stands', async () => {
    const { design } = await makePlannedDesign(testApp, lab, aSeries({ contents: ['10', '12', '14'] }))
    const { id: cupId } = await entered(design.id)
    const shares = sharesOf(design)
    const paths = async (body: object) =>
      (await use(design.id, body).expect(400)).body.errors.map(({ path }: { path: string }) => path)
    expect(await paths({ cupId, contents: shares.slice(1) })).toEqual(['contents'])
    expect(await paths({ cupId, contents: [...shares.slice(1), shares[1]] })).toEqual(['contents'])
    expect(await paths({ cupId, contents: sharesOf(design, { waterPercent: '-1' }) })).toContain(
      'contents.0.waterPercent',
    )
    expect(await paths({ cupId: newId(), contents: shares })).toEqual(['cupId'])
    expect((await designOf(design.id)).mixes).toEqual(design.mixes)
  })

  it('changes nothing once a batch is begun, and says which', async () => {
    const { design, specimens } = await makePlannedDesign(testApp, lab)
    const { id: cupId } = await entered(design.id)
    const [disc] = specimens
    await testApp.services.bench.readings.post(
      lab.people.technician.actor,
      disc!.batchTestId,
      aReading(testApp, 'weigh-components', 'aggregate', '800.0'),
    )
    const { body } = await use(design.id, { cupId, contents: sharesOf(design) }).expect(422)
    expect(body.detail).toContain(`The batch of 12-1 (${disc!.code}.B) is begun`)
    expect((await read(design.id)).sharesStand).toBe(body.detail)
    expect((await designOf(design.id)).mixes[0]!.waterPercent).toBe('10')
  })

  it('chosen by two at once: shares and chosen cup are those of whoever came last, whenever they began', async () => {
    const { design } = await makePlannedDesign(testApp, lab)
    const [first, second] = [await entered(design.id), await entered(design.id)]
    const server = await testApp.startAnother()
    const choose =
      ({ services }: Pick<TestApp, 'services'>, cupId: string, waterPercent: string) =>
      () =>
        services.trials.useAsBase(lab.people.engineer.actor, design.id, {
          ...{ id: newId(), cupId },
          contents: sharesOf(design, { waterPercent }),
        })
    try {
      const held = { sql: 'select from design where id = $1 for update', values: [design.id] }
      const early = testApp.clock.now().toISOString()
      testApp.clock.advance({ seconds: 5 })
      const outcomes = await atOnce(testApp.ownerUrl, held, choose(testApp, first.id, '11.5'), () => {
        // Its transaction began before the other's, and reached the design behind it.
        testApp.clock.set(early)
        return choose(server, second.id, '8.5')()
      })
      expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'fulfilled'])
      expect((await designOf(design.id)).mixes[0]!.waterPercent).toBe('8.5')
      expect((await read(design.id)).base).toMatchObject({ cupId: second.id, number: second.number })
    } finally {
      testApp.clock.advance({ seconds: 5 })
      await server.close()
    }
  })

  it('and a first weighing at the same moment follow one another: shares never change under a batch', async () => {
    const { design, specimens } = await makePlannedDesign(testApp, lab)
    const { id: cupId } = await entered(design.id)
    const other = await testApp.startAnother()
    try {
      const [applied, weighed] = await Promise.all([
        use(design.id, { cupId, contents: sharesOf(design) }),
        lab
          .as('technician', other.url)
          .post(lab.path(`/tests/${specimens[0]!.batchTestId}/readings`))
          .send(aReading(testApp, 'weigh-components', 'aggregate', '800.0')),
      ])
      expect(weighed.status).toBe(201)
      expect([201, 422]).toContain(applied.status)
      const { mixes } = await designOf(design.id)
      expect(mixes[0]!.waterPercent).toBe(applied.status === 201 ? '11.0' : '10')
      // Whichever came first, from now on they stand.
      await use(design.id, { cupId, contents: sharesOf(design) }).expect(422)
    } finally {
      await other.close()
    }
  })
})
