import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const residue = (more: object = {}) => ({
  id: newId(),
  key: 'residue',
  typed: '62.6',
  unit: '%',
  source: 'Own test, three beakers',
  observedOn: '2026-03-02',
  ...more,
})
const post = (id: string, body: object, url?: string) =>
  lab
    .as('technician', url)
    .post(lab.path(`/designs/${id}/entered-results`))
    .send(body)

test('a value is kept as typed, with who, when and where from', async () => {
  const { id } = await makeDesign(testApp, lab, { residue: null, moisture: null })
  const body = residue({ typed: '62,60 %' })
  const answer = await post(id, body).expect(201)
  expect(answer.body).toMatchObject({
    typed: '62,60 %',
    value: '62.6',
    unit: '%',
    source: 'Own test, three beakers',
    observedOn: '2026-03-02',
    by: { name: 'Person technician' },
    supersedes: null,
  })
  await post(id, body).expect(200, answer.body)
  const { body: design } = await lab
    .as('engineer')
    .get(lab.path(`/designs/${id}`))
    .expect(200)
  expect(design.residue).toEqual(answer.body)
  expect(design.moisture).toBeNull()
})

test('a further value names the one that it replaces, and why; whoever computes from it is told', async () => {
  const { id, revisionId, residue: first } = await makeDesign(testApp, lab)
  const told: string[] = []
  testApp.services.designs.onDesignInputChanged(async (_, revision) => void told.push(revision))
  const { body: problem } = await post(id, residue({ typed: '62.8' })).expect(409)
  expect(problem).toMatchObject({ stored: { id: first!.id, typed: '62.6' }, sent: { typed: '62.8' } })
  expect(told).toEqual([])
  const { body } = await post(
    id,
    residue({ typed: '62.8', supersedes: { id: first!.id, reason: 'A beaker was spilt' } }),
  ).expect(201)
  expect(body.supersedes).toEqual({ id: first!.id, typed: '62.6', reason: 'A beaker was spilt' })
  expect(told).toEqual([revisionId])
})

test('two people entering or replacing a value at once through two servers: one stands', async () => {
  const { id } = await makeDesign(testApp, lab, { residue: null })
  const other = await testApp.startAnother()
  try {
    const firsts = await Promise.all([post(id, residue()), post(id, residue({ typed: '62.8' }), other.url)])
    expect(firsts.map(({ status }) => status).toSorted()).toEqual([201, 409])
    const supersedes = { id: firsts.find(({ status }) => status === 201)!.body.id, reason: 'Done again' }
    const seconds = await Promise.all([
      post(id, residue({ typed: '62.4', supersedes })),
      post(id, residue({ typed: '62.5', supersedes }), other.url),
    ])
    expect(seconds.map(({ status }) => status).toSorted()).toEqual([201, 409])
  } finally {
    await other.close()
  }
})

test('what cannot be is refused beside its field', async () => {
  const { id } = await makeDesign(testApp, lab, { residue: null, moisture: null })
  const paths = async (more: object) =>
    (await post(id, residue(more)).expect(400)).body.errors.map(({ path }: { path: string }) => path)
  for (const typed of ['0', '100.1', '62.6 g', 'about 62', '-1']) expect(await paths({ typed })).toEqual(['typed'])
  expect(await paths({ source: '' })).toEqual(['source'])
  expect(await paths({ observedOn: '2026-03-03' })).toEqual(['observedOn'])
  await post(id, residue({ key: 'aggregate-moisture', typed: '0' })).expect(201)
})

test('a revision that is reviewed or approved takes no values; an auditor enters none', async () => {
  const { id, revisionId } = await makeDesign(testApp, lab, { residue: null })
  const setState = (state: string) =>
    testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, ({ prisma }) =>
      prisma.designRevision.updateMany({ where: { labId: lab.labId, id: revisionId }, data: { state } }),
    )
  for (const state of ['in-review', 'approved']) {
    await setState(state)
    await post(id, residue()).expect(409)
  }
  await lab
    .as('auditor')
    .post(lab.path(`/designs/${id}/entered-results`))
    .send(residue())
    .expect(403)
  await post(newId(), residue()).expect(404)
})

test('the ledger holds every entered value as it is stored', async () => {
  const { id, residue: first } = await makeDesign(testApp, lab, { residue: '62,60 %' })
  await post(id, residue({ typed: '62.80', supersedes: { id: first!.id, reason: 'A beaker was spilt' } })).expect(201)
  const verdict = await testApp.services.ledger.verify(lab.people.manager.actor, {})
  // Residue and its correction, moisture, and five samples received.
  expect(verdict).toMatchObject({ whole: true, rowsCompared: 8 })
})
