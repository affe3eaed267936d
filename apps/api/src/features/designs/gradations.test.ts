import { EnterGradationSchema } from '@curebook/contract/gradations'
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import {
  acknowledgeAll,
  makeTestedDesign,
  oneDisc,
  recommend,
  sign,
} from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const sieves = [
  { size: '9,5', passing: '100' },
  { size: '4.75', passing: '94.0' },
  { size: '0.075', passing: '9.6' },
]
const gradation = (more: object = {}) => ({
  id: newId(),
  sieves,
  madeBy: 'entered',
  method: 'Dry and washed sieving',
  edition: '2014',
  observedBy: 'B. Person',
  observedOn: '2026-03-02',
  ...more,
})
const post = (id: string, body: object, url?: string) =>
  lab
    .as('technician', url)
    .post(lab.path(`/designs/${id}/gradations`))
    .send(body)
const checkOf = async (id: string) =>
  (
    await lab
      .as('engineer')
      .get(lab.path(`/designs/${id}/range`))
      .expect(200)
  ).body
const standing = async (id: string) =>
  (
    await lab
      .as('engineer')
      .get(lab.path(`/designs/${id}/range`))
      .expect(200)
  ).body.gradation

test('the sieves are held against the band of the specification, one by one', async () => {
  const { id } = await makeDesign(testApp, lab)
  const { gradationCheck: before, overall: without } = await checkOf(id)
  expect(without).toMatch(/^The panel is not complete\. .*Not tested: .*gradation of the aggregate\./)
  expect(before).toMatchObject({ verdict: 'incomplete', sentence: 'No gradation is entered: not tested.' })
  expect(before.rows).toHaveLength(8)
  const out = sieves.map((sieve) => (sieve.size === '4.75' ? { ...sieve, passing: '89,9' } : sieve))
  await post(id, gradation({ sieves: out })).expect(201)
  const { gradationCheck, overall } = await checkOf(id)
  expect(gradationCheck).toMatchObject({ verdict: 'outside', source: expect.stringContaining('table 18') })
  const verdicts = gradationCheck.rows.map(({ size, verdict }: { size: string; verdict: string }) => [size, verdict])
  expect(verdicts.slice(0, 3)).toEqual([
    ['9.5', 'inside'],
    ['4.75', 'outside'],
    ['2.36', 'not tested'],
  ])
  expect(gradationCheck.rows[1]).toMatchObject({ passing: '89.9', from: '90', to: '100', tolerance: '5' })
  expect(overall).toContain('Does not meet its limit: gradation of the aggregate.')
  expect(overall).toContain('The gradation lies outside the band at No. 4, 4.75 mm with 89.9 % (90 to 100 %).')
})

test('a gradation is kept as typed with what it was found by, and stands with the panel', async () => {
  const { id } = await makeDesign(testApp, lab)
  expect(await standing(id)).toBeNull()
  const body = gradation({ remark: 'whole grading' })
  const answer = await post(id, body).expect(201)
  expect(answer.body).toMatchObject({
    sieves,
    method: 'Dry and washed sieving',
    edition: '2014',
    source: 'Own test by hand',
    observedBy: 'B. Person',
    revision: 1,
    attachment: null,
    supersedes: null,
  })
  await post(id, body).expect(200, answer.body)
  expect(await standing(id)).toEqual(answer.body)
})

test('what cannot be is refused beside its sieve and field', async () => {
  const { id } = await makeDesign(testApp, lab)
  const paths = async (more: object) =>
    (await post(id, gradation(more)).expect(400)).body.errors.map(({ path }: { path: string }) => path)
  expect(await paths({ sieves: [...sieves].toReversed() })).toEqual(['sieves.1.size'])
  expect(await paths({ sieves: [sieves[1], { size: '2.36', passing: '94.1' }] })).toEqual(['sieves.1.passing'])
  expect(await paths({ sieves: [{ size: '4.75', passing: '101' }] })).toEqual(['sieves.0.passing'])
  expect(await paths({ sieves: [] })).toEqual(['sieves'])
  expect(await paths({ observedBy: '' })).toEqual(['observedBy'])
  expect(await paths({ madeBy: 'outside', source: 'Report 12' })).toEqual(['laboratoryName'])
  expect(await paths({ observedOn: '2026-03-03' })).toEqual(['observedOn'])
  expect(await paths({ attachmentId: newId() })).toEqual(['attachmentId'])
  expect(await standing(id)).toBeNull()
})

test('it may stand in a file alone', async () => {
  const { id } = await makeDesign(testApp, lab)
  const file = await testApp.services.attachments.create(lab.people.technician.actor, {
    id: newId(),
    name: 'sieves.csv',
    mediaType: 'text/csv',
    base64: Buffer.from('mm;%\n4.75;94\n').toString('base64'),
  })
  const { body } = await post(id, gradation({ sieves: [], attachmentId: file.value.id })).expect(201)
  expect(body).toMatchObject({ sieves: [], attachment: { name: 'sieves.csv' } })
})

test('it is replaced with a reason, the old one named; of two at once through two servers one stands', async () => {
  const { id } = await makeDesign(testApp, lab)
  const other = await testApp.startAnother()
  try {
    const firsts = await Promise.all([post(id, gradation()), post(id, gradation(), other.url)])
    expect(firsts.map(({ status }) => status).toSorted()).toEqual([201, 409])
    const first = firsts.find(({ status }) => status === 201)!.body
    const supersedes = { id: first.id, reason: 'Pan not cleaned' }
    const again = () => gradation({ sieves: sieves.slice(0, 2), supersedes })
    const seconds = await Promise.all([post(id, again()), post(id, again(), other.url)])
    expect(seconds.map(({ status }) => status).toSorted()).toEqual([201, 409])
    expect(await standing(id)).toMatchObject({
      sieves: sieves.slice(0, 2),
      supersedes: { id: first.id, sieves, reason: 'Pan not cleaned' },
    })
  } finally {
    await other.close()
  }
})

test('it is signed with the work, and whoever entered it is one of those who did it', async () => {
  const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
  const review = async () =>
    (
      await lab
        .as('engineer')
        .get(lab.path(`/designs/${design.id}/review`))
        .expect(200)
    ).body
  const before = await review()
  const input = EnterGradationSchema.parse(gradation())
  await testApp.services.designs.enterGradation(lab.people.technician2.actor, design.id, input)
  const after = await review()
  expect(after.digest).not.toBe(before.digest)
  expect(after.workDigest).not.toBe(before.workDigest)
  const names = (of: { doneBy: { membershipId: string }[] }) => of.doneBy.map(({ membershipId }) => membershipId)
  expect(names(after)).toContain(lab.people.technician2.actor.membershipId)
})

test('the first of a further revision says what stood for the one before, and why it differs; the report prints it', async () => {
  const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
  const { body: first } = await post(design.id, gradation()).expect(201)
  await recommend(testApp, lab, design.id)
  await acknowledgeAll(testApp, lab, design.id)
  await sign(testApp, lab, design.id, 'check')
  await sign(testApp, lab, design.id, 'approve')
  await lab
    .as('engineer')
    .post(lab.path(`/designs/${design.id}/revisions`))
    .send({ id: newId(), reason: 'Another stockpile' })
    .expect(201)
  const other = [
    { size: '9,5', passing: '100' },
    { size: '4.75', passing: '91.0' },
  ]
  const body = gradation({ sieves: other, supersedes: { id: first.id, reason: 'Sieved again' } })
  const answer = await post(design.id, body).expect(201)
  const supersedes = { id: first.id, sieves, reason: 'Sieved again' }
  expect(answer.body).toMatchObject({ revision: 2, supersedes })
  await post(design.id, body).expect(200, answer.body)
  expect(await standing(design.id)).toEqual(answer.body)
  const { content } = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, (tx) =>
    testApp.services.review.standingIn(tx, design.id),
  )
  expect(content.corrections).toMatchObject([
    { label: 'Gradation, entered', reason: 'Sieved again', to: expect.stringContaining('91.0') as string },
  ])
  expect(content.corrections[0]!.from).toContain('94.0')
})
