import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { testPassword } from '../../../../../tests/support/factories/account.ts'
import { aSeries } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { correctW2 } from '../../../../../tests/support/factories/reviewed.ts'
import {
  acknowledgeAll,
  aRecommendation,
  makeTestedDesign,
  oneDisc,
  recommend,
  sign,
} from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
let another: Awaited<ReturnType<TestApp['startAnother']>>
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  another = await testApp.startAnother()
})
afterAll(async () => {
  await another.close()
  await testApp.close()
})

/** A design in review, its points seen, checked unless told otherwise. */
async function inReview({ checked = true } = {}) {
  const lab = await makeLaboratory(testApp)
  const tested = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
  await recommend(testApp, lab, tested.design.id)
  await acknowledgeAll(testApp, lab, tested.design.id)
  if (checked) await sign(testApp, lab, tested.design.id, 'check')
  return { lab, ...tested }
}

/** Acts that meet at the design's row. */
const atDesign = <T extends readonly (() => Promise<unknown>)[]>(designId: string, ...acts: T) =>
  atOnce(testApp.ownerUrl, { sql: 'select from design where id = $1 for update', values: [designId] }, ...acts)

const review = (lab: TestLaboratory, designId: string) =>
  testApp.services.review.read(lab.people.engineer.actor, designId)

/** A signature under what the review shows now, to be given when the row is free. */
async function ready(
  lab: TestLaboratory,
  designId: string,
  act: 'check' | 'approve',
  who: 'manager' | 'engineer' | 'engineer2',
) {
  const { digest, workDigest } = await review(lab, designId)
  const input = { id: newId(), digest: act === 'check' ? workDigest : digest, password: testPassword, statement: '' }
  return () => testApp.services.review[act](lab.people[who].actor, designId, input, '127.0.0.1')
}

const sendBack =
  (lab: TestLaboratory, designId: string, id = newId()) =>
  () =>
    another.services.review.sendBack(lab.people.manager.actor, designId, {
      id,
      reason: 'The tolerance is wider than the plant holds',
      points: ['recommendation'],
    })

it.each(['approved first', 'sent back first'])(
  'what is approved and sent back at once is one of the two: %s',
  async (first) => {
    const { lab, design } = await inReview()
    const approve = await ready(lab, design.id, 'approve', 'engineer')
    const acts = [approve, sendBack(lab, design.id)]
    const outcomes = await atDesign(design.id, ...(first === 'approved first' ? acts : acts.toReversed()))
    expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'rejected'])
    const now = await review(lab, design.id)
    expect([now.state, now.sentBack !== null, now.signatures.map(({ meaning }) => meaning).toSorted()]).toEqual(
      first === 'approved first' ? ['approved', false, ['approved', 'checked']] : ['sent-back', true, ['checked']],
    )
  },
)

it('sent back twice at once by one press is sent back once, and both are answered alike', async () => {
  const { lab, design } = await inReview()
  const id = newId()
  const outcomes = await atDesign(design.id, sendBack(lab, design.id, id), sendBack(lab, design.id, id))
  expect(outcomes).toMatchObject([
    { status: 'fulfilled', value: { state: 'sent-back' } },
    { status: 'fulfilled', value: { state: 'sent-back' } },
  ])
  const entries = await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, ({ prisma }) =>
    prisma.ledgerEntry.count({ where: { labId: lab.labId, action: 'revision:send-back' } }),
  )
  expect(entries).toBe(1)
})

it('a word on a point, sent again behind somebody else’s further word, is said once and changes nothing', async () => {
  const { lab, design } = await inReview({ checked: false })
  const [point] = (await review(lab, design.id)).points
  const say = (who: 'engineer' | 'engineer2', id: string, word: string) => () =>
    testApp.services.review.acknowledge(lab.people[who].actor, design.id, { id, pointKey: point!.key, word })
  const mine = say('engineer', newId(), 'First')
  const outcomes = await atDesign(design.id, mine, say('engineer2', newId(), 'Second'), mine)
  expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'fulfilled', 'fulfilled'])
  expect((await review(lab, design.id)).points[0]!.acknowledged).toMatchObject({ word: 'Second' })
  const entries = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
    prisma.ledgerEntry.count({ where: { labId: lab.labId, content: { contains: '"word":"First"' } } }),
  )
  expect(entries).toBe(1)
})

it('two checks of the same work at once are one', async () => {
  const { lab, design } = await inReview({ checked: false })
  const [first, second] = [
    await ready(lab, design.id, 'check', 'manager'),
    await ready(lab, design.id, 'check', 'engineer2'),
  ]
  const outcomes = await atDesign(design.id, first, second)
  expect(outcomes).toMatchObject([{ status: 'fulfilled' }, { reason: { code: 'refused-by-rule' } }])
  expect((await review(lab, design.id)).signatures).toHaveLength(1)
})

it('a check of work that is corrected at once is of what was shown, or is not given', async () => {
  const { lab, design, specimens } = await inReview({ checked: false })
  const check = await ready(lab, design.id, 'check', 'manager')
  const [disc] = specimens
  const held = { sql: 'select from test_now where test_id = $1 for update', values: [disc!.testId] }
  const [corrected, checked] = await atOnce(
    testApp.ownerUrl,
    held,
    () => correctW2(testApp, lab, disc!.testId, '750.4'),
    check,
  )
  expect(corrected.status).toBe('fulfilled')
  expect(checked).toMatchObject({ reason: { code: 'changed-meanwhile' } })
  expect((await review(lab, design.id)).signatures).toEqual([])
})

it.each(['entered first', 'approved first'])(
  'a value entered while it is approved is signed, or is not taken: %s',
  async (first) => {
    const { lab, design } = await inReview()
    const approve = await ready(lab, design.id, 'approve', 'engineer')
    const enter = () =>
      another.services.designs.enterPanelResult(lab.people.engineer2.actor, design.id, {
        ...{ id: newId(), limitKey: 'cohesion-30-min', typed: '12.5', unit: 'kg·cm', method: 'TB-139' },
        ...{ madeBy: 'entered', observedBy: 'Person engineer2', observedOn: '2026-03-02', atEmulsionPercent: '12.0' },
        ...{ edition: '', instrument: '', source: '', laboratoryName: '', remark: '', attachmentId: null },
      })
    const acts = first === 'entered first' ? [enter, approve] : [approve, enter]
    const outcomes = await atDesign(design.id, ...acts)
    expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'rejected'])
    const now = await review(lab, design.id)
    const { panel } = await testApp.services.range.read(lab.people.engineer.actor, design.id)
    const entered = panel.find(({ key }) => key === 'cohesion-30-min')?.entered
    expect([entered?.typed, now.state]).toEqual(
      first === 'entered first' ? ['12.5', 'in-review'] : [undefined, 'approved'],
    )
  },
)

it.each(['planned first', 'recommended first'])('nothing is planned into what is in review: %s', async (first) => {
  const lab = await makeLaboratory(testApp)
  const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
  const plan = () =>
    another.services.designs.plan(lab.people.engineer2.actor, design.id, aSeries({ contents: ['12', '13'] }), newId())
  const propose = () =>
    testApp.services.recommendations.recommend(lab.people.engineer.actor, design.id, aRecommendation())
  const [one, other] = await atDesign(design.id, ...(first === 'planned first' ? [plan, propose] : [propose, plan]))
  expect(one!.status).toBe('fulfilled')
  const { points, state } = await review(lab, design.id)
  expect(state).toBe('in-review')
  // What was planned before is a point that blocks; behind the recommendation nothing is.
  expect(points.some(({ blocking }) => blocking)).toBe(first === 'planned first')
  if (first === 'recommended first') expect(other).toMatchObject({ reason: { code: 'wrong-state' } })
})

it('a new revision asked for twice at once through two servers is one, and both are answered alike', async () => {
  const { lab, design } = await inReview()
  await sign(testApp, lab, design.id, 'approve')
  const input = { id: newId(), reason: 'One more disc asked for' }
  const start = (server: Pick<TestApp, 'services'>) => () =>
    server.services.designs.startRevision(lab.people.engineer.actor, design.id, input)
  const [first, second] = await atDesign(design.id, start(testApp), start(another))
  expect(first).toMatchObject({ status: 'fulfilled', value: { created: true, value: { revision: 2 } } })
  expect(second).toMatchObject({ status: 'fulfilled', value: { created: false, value: { revision: 2 } } })
})
