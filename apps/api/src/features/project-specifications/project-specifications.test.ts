import type { Design } from '@curebook/contract/designs'
import type { ProjectSpecifications } from '@curebook/contract/project-specifications'
import type { ClientProjects } from '@curebook/contract/reports'
import type { Specification } from '@curebook/contract/specifications'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeMaterial, makeProject, makeSpecification } from '../../../../../tests/support/factories/design.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
let project: string
let first: Specification
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
  project = (await makeProject(testApp, lab)).id
  first = await makeSpecification(testApp, lab)
})
afterAll(() => testApp.close())

const set = (
  body: object,
  { who = 'engineer', url, of = project }: { who?: PersonKey; url?: string; of?: string } = {},
) =>
  lab
    .as(who, url)
    .post(lab.path(`/projects/${of}/specifications`))
    .send({ id: newId(), after: null, ...body })
const seen = async (of = project) =>
  (
    await lab
      .as('auditor')
      .get(lab.path(`/projects/${of}/specifications`))
      .expect(200)
  ).body as ProjectSpecifications
const fieldsOf = ({ body }: { body: { errors?: { path: string }[] } }) => body.errors?.map(({ path }) => path)

/** The next version: its mix time another one. */
async function nextOf({ id, name, source, aggregateType, traffic, residualBand, limits }: Specification) {
  const { from, to, source: bandSource } = residualBand
  const kept = limits.map((limit) => ({
    key: limit.key,
    property: limit.property,
    label: limit.label,
    soak: limit.soak,
    traffic: limit.traffic as Specification['traffic'] | null,
    sense: limit.sense,
    value: limit.property === 'mix-time' ? '150' : limit.value,
    upper: limit.upper,
    unit: limit.unit,
    condition: limit.condition,
    rounding: limit.rounding,
    decisionRule: limit.decisionRule,
    uncertainty: limit.uncertainty,
    source: limit.source,
    clause: limit.clause,
    method: limit.method,
    group: limit.group,
    certainty: 'by contract' as const,
  }))
  const edited = { name, source, aggregateType, traffic, gradationBand: null, limits: kept }
  const { value } = await testApp.services.specifications.edit(lab.people.engineer.actor, id, {
    id: newId(),
    ...edited,
    residualBand: { from, to, source: bandSource, certainty: 'by contract' },
    reason: 'Contract 12, amendment 1',
  })
  return value
}

async function designBody(changes: object = {}) {
  const [aggregate, emulsion] = [
    await makeMaterial(testApp, lab, 'aggregate'),
    await makeMaterial(testApp, lab, 'emulsion'),
  ]
  return {
    id: newId(),
    revisionId: newId(),
    projectId: project,
    name: 'Type II',
    aggregateId: aggregate.id,
    emulsionId: emulsion.id,
    fillerId: null,
    additiveId: null,
    waterId: null,
    ...changes,
  }
}
const makeDesign = async (changes: object = {}, who: PersonKey = 'engineer', url?: string) =>
  lab
    .as(who, url)
    .post(lab.path('/designs'))
    .send(await designBody(changes))

describe('what a project stands on', () => {
  it('is set by whom, when and, from the second time on, why; what stood before stays on record', async () => {
    expect(await seen()).toEqual({ items: [], standing: null, newer: null, withdrawn: null, copies: [], others: [] })
    const { body: one } = await set({ specificationId: first.id }).expect(201)
    expect(one).toMatchObject({
      specification: { id: first.id, name: first.name, version: 1 },
      reason: null,
      by: { name: 'Person engineer' },
      at: testApp.clock.now().toISOString(),
    })
    const second = await makeSpecification(testApp, lab)
    const silent = await set({ specificationId: second.id, after: one.id })
    expect([silent.status, fieldsOf(silent)]).toEqual([400, ['reason']])
    const because = { specificationId: second.id, after: one.id, reason: 'The owner’s own values hold' }
    const { body: two } = await set(because, { who: 'manager' }).expect(201)
    expect((await seen()).items).toEqual([two, one])
    expect(two).toMatchObject({ reason: because.reason, by: { name: 'Person manager' } })
    const { body: ledger } = await lab
      .as('auditor')
      .get(lab.path(`/ledger/entries?subjectId=${two.id}`))
      .expect(200)
    expect(ledger.items).toMatchObject([{ action: 'project:pin', projectId: project }])

    const again = await set({ ...because, after: two.id })
    expect([again.status, fieldsOf(again)]).toEqual([400, ['specificationId']])
    const nowhere = await set({ specificationId: newId(), after: two.id, reason: 'A word' })
    expect([nowhere.status, fieldsOf(nowhere)]).toEqual([400, ['specificationId']])
    await set(because, { who: 'technician' }).expect(403)
    await set({ specificationId: second.id }, { of: newId() }).expect(404)
  })

  it('is set by one of two who set it at once; the other is told what stands', async () => {
    const second = await makeSpecification(testApp, lab)
    const another = await testApp.startAnother()
    try {
      const answers = await Promise.all([
        set({ specificationId: first.id }),
        set({ specificationId: second.id }, { who: 'manager', url: another.url }),
      ])
      expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
      const stands = answers.find(({ status }) => status === 201)!.body
      const refused = answers.find(({ status }) => status === 409)!.body
      expect(refused.stored).toEqual(stands)
      expect(refused.detail).toContain(stands.by.name)
      expect((await seen()).items).toEqual([stands])
      const body = { id: newId(), specificationId: stands.specification.id === first.id ? second.id : first.id }
      const later = { ...body, after: stands.id, reason: 'Amended' }
      const twice = await Promise.all([set(later), set(later, { url: another.url })])
      expect(twice.map(({ status }) => status).sort()).toEqual([200, 201])
      expect((await seen()).items).toHaveLength(2)
    } finally {
      await another.close()
    }
  })

  it('stays where a newer version follows or the specification is withdrawn, and says so', async () => {
    const { body: pin } = await set({ specificationId: first.id }).expect(201)
    const next = await nextOf(first)
    const told = await seen()
    expect(told.items.map(({ specification }) => specification.version)).toEqual([1])
    expect(told).toMatchObject({
      standing: 'superseded',
      newer: { id: next.id, version: 2, reason: 'Contract 12, amendment 1', by: { name: 'Person engineer' } },
    })
    expect(told.newer!.changes.some(({ what }) => what.includes('Mix time'))).toBe(true)
    await set({ specificationId: next.id, after: pin.id, reason: 'Amendment 1 taken over' }).expect(201)
    expect(await seen()).toMatchObject({ standing: 'current', newer: null })

    await testApp.services.specifications.withdraw(lab.people.engineer.actor, next.id, {
      id: newId(),
      reason: 'The contract ended',
    })
    const after = await seen()
    expect(after).toMatchObject({ standing: 'withdrawn', newer: null, withdrawn: { reason: 'The contract ended' } })
    const refused = await makeDesign()
    expect([refused.status, fieldsOf(refused)]).toEqual([400, ['specificationId']])
    const back = await set({ specificationId: first.id, after: after.items[0]!.id, reason: 'Back' })
    expect([back.status, fieldsOf(back)]).toEqual([400, ['specificationId']])
  })

  it('is told to its client by name and version, and nothing more of it', async () => {
    const own = async (who: PersonKey) =>
      ((await lab.as(who).get(lab.path('/progress')).expect(200)).body as ClientProjects).projects
    expect((await own('client'))[0]!.specification).toBeNull()
    const { body: pin } = await set({ specificationId: first.id }).expect(201)
    const next = await nextOf(first)
    await set({ specificationId: next.id, after: pin.id, reason: 'Between us' }).expect(201)
    const [told] = await own('client')
    expect(told!.specification).toEqual({ name: first.name, version: 2 })
    expect(JSON.stringify(told)).not.toContain('Between us')
    expect(await own('otherClient')).toEqual([])
    await lab
      .as('client')
      .get(lab.path(`/projects/${project}/specifications`))
      .expect(403)
    await lab
      .as('client')
      .get(lab.path(`/specifications/${next.id}`))
      .expect(403)
  })
})

describe('the history of a specification', () => {
  it('counts the projects that stand on each version now', async () => {
    const projects = async () => {
      const { body } = await lab
        .as('engineer')
        .get(lab.path(`/specifications/${first.id}`))
        .expect(200)
      return body.versions.map((version: { projects: number }) => version.projects)
    }
    const other = (await makeProject(testApp, lab)).id
    const { body: pin } = await set({ specificationId: first.id }).expect(201)
    await set({ specificationId: first.id }, { of: other }).expect(201)
    expect(await projects()).toEqual([2])
    const next = await nextOf(first)
    await set({ specificationId: next.id, after: pin.id, reason: 'Amendment' }).expect(201)
    expect(await projects()).toEqual([1, 1])
  })
})

describe('a design', () => {
  it('begins with what its project stands on, keeps it, and says when that is another one', async () => {
    const open = await makeDesign()
    expect([open.status, fieldsOf(open)]).toEqual([400, ['specificationId']])
    const { body: pin } = await set({ specificationId: first.id }).expect(201)
    const made = await makeDesign()
    expect([made.status, made.body.specification.id, made.body.specificationReason]).toEqual([201, first.id, null])
    const second = await makeSpecification(testApp, lab)
    await set({ specificationId: second.id, after: pin.id, reason: 'Amendment' }).expect(201)
    const { body: kept } = await lab
      .as('technician')
      .get(lab.path(`/designs/${made.body.id}`))
      .expect(200)
    expect(kept).toMatchObject({
      specification: { id: first.id },
      specificationReason: null,
      projectSpecification: { id: second.id, name: second.name, version: 1 },
    })
    expect((await seen()).others).toEqual([
      {
        designId: made.body.id,
        name: 'Type II',
        revision: 1,
        state: 'draft',
        specification: { id: first.id, name: first.name, version: 1 },
        reason: null,
      },
    ])
  })

  it('takes another one with a reason, which the review says; the reason goes with the difference', async () => {
    await set({ specificationId: first.id }).expect(201)
    const second = await makeSpecification(testApp, lab)
    const silent = await makeDesign({ specificationId: second.id })
    expect([silent.status, fieldsOf(silent)]).toEqual([400, ['specificationReason']])
    const reason = 'A trial section under the owner’s own values'
    const { body: made } = await makeDesign({ specificationId: second.id, specificationReason: reason })
    expect(made).toMatchObject({ specification: { id: second.id }, specificationReason: reason })
    const { points } = await testApp.services.review.read(lab.people.engineer.actor, made.id)
    expect(points.filter(({ kind }) => kind === 'specification')).toMatchObject([
      {
        sentence: expect.stringMatching(`Held against .*; the project stands on .*\\. Why: ${reason}`),
        blocking: false,
      },
    ])
    const { content } = await testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, (tx) =>
      testApp.services.review.standingIn(tx, made.id),
    )
    expect(content.specification).toMatchObject({ version: '1', differs: expect.stringContaining(reason) })

    const patch = ({ version }: Design, body: object) =>
      lab
        .as('engineer')
        .patch(lab.path(`/designs/${made.id}`))
        .set('if-match', `"${version}"`)
        .send(body)
    const { body: back } = await patch(made, { specificationId: first.id }).expect(200)
    expect(back).toMatchObject({ specification: { id: first.id }, specificationReason: null })
    const unsaid = await patch(back, { specificationId: second.id })
    expect([unsaid.status, fieldsOf(unsaid)]).toEqual([400, ['specificationReason']])
    const { body: again } = await patch(back, { specificationId: second.id, specificationReason: reason }).expect(200)
    const { body: renamed } = await patch(again, { name: 'Type II, trial' }).expect(200)
    expect(renamed).toMatchObject({ specification: { id: second.id }, specificationReason: reason })
  })

  it('and the project set at once follow one another: the design has what stood, or what stands', async () => {
    const { body: pin } = await set({ specificationId: first.id }).expect(201)
    const second = await makeSpecification(testApp, lab)
    const another = await testApp.startAnother()
    try {
      const [made, changed] = await Promise.all([
        makeDesign({}, 'manager', another.url),
        set({ specificationId: second.id, after: pin.id, reason: 'Amendment' }),
      ])
      expect([made.status, changed.status]).toEqual([201, 201])
      const { others } = await seen()
      expect(others.map(({ designId }) => designId)).toEqual(
        made.body.specification.id === first.id ? [made.body.id] : [],
      )
    } finally {
      await another.close()
    }
  })
})

describe('a contract’s own copy', () => {
  const adopt = (projectId: string | undefined, who: PersonKey = 'engineer') =>
    lab
      .as(who)
      .post(lab.path('/specifications'))
      .send({
        id: newId(),
        builtInKey: first.key,
        name: 'Values of contract 12',
        aggregateType: first.aggregateType,
        traffic: first.traffic,
        changes: [],
        ...(projectId === undefined ? {} : { projectId }),
      })

  it('is seen in its project alone, and no other project or design of one takes it', async () => {
    const { body: copy } = await adopt(project).expect(201)
    expect(copy.project).toEqual({ id: project, name: 'Overlay 2026' })
    const listed = async (query = '') =>
      (
        await lab
          .as('technician')
          .get(lab.path(`/specifications${query}`))
          .expect(200)
      ).body.items.map(({ id }: Specification) => id)
    expect(await listed()).toEqual([first.id])
    expect((await listed(`?projectId=${project}`)).toSorted()).toEqual([copy.id, first.id].toSorted())
    expect((await seen()).copies).toEqual([{ id: copy.id, name: copy.name, version: 1 }])
    const next = await nextOf(copy)
    expect(next.project).toEqual(copy.project)
    expect((await seen()).copies).toEqual([{ id: next.id, name: copy.name, version: 2 }])

    const { id: other } = await makeProject(testApp, lab, { name: 'Lanes' })
    expect(await listed(`?projectId=${other}`)).toEqual([first.id])
    const elsewhere = await set({ specificationId: next.id }, { of: other })
    expect([elsewhere.status, fieldsOf(elsewhere)]).toEqual([400, ['specificationId']])
    const design = await makeDesign({ projectId: other, specificationId: next.id })
    expect([design.status, fieldsOf(design)]).toEqual([400, ['specificationId']])
    await set({ specificationId: next.id }).expect(201)
    expect((await makeDesign()).body.specification.id).toBe(next.id)
    const lost = await adopt(newId())
    expect([lost.status, fieldsOf(lost)]).toEqual([400, ['projectId']])
  })

  it('is kept to its project by the database too', async () => {
    const { body: copy } = await adopt(project).expect(201)
    const { id: other } = await makeProject(testApp, lab, { name: 'Lanes' })
    const { actor } = lab.people.engineer
    const insert = testApp.services.laboratory.inLaboratory(actor, ({ prisma, at }) =>
      prisma.projectSpecification.createMany({
        data: [
          { labId: actor.labId, id: newId(), projectId: other, specificationId: copy.id, byId: actor.membershipId, at },
        ],
      }),
    )
    await expect(insert).rejects.toThrow(/copy of another project/)
  })
})
