import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { makeDesign, makeSpecification } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp()
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const source = 'County standard, 2026'
const limit = (more: object = {}) => ({
  key: 'mix-time',
  property: 'mix-time',
  label: 'Mix time',
  sense: 'min',
  value: '150',
  unit: 's',
  rounding: 'none',
  decisionRule: 'simple acceptance',
  source,
  certainty: 'published',
  ...more,
})
const written = (more: object = {}) => ({
  id: newId(),
  name: 'County limits',
  source,
  aggregateType: 'Type II',
  traffic: 'heavy',
  residualBand: { from: '6', to: '10', source, certainty: 'published' },
  gradationBand: {
    sieves: [
      { size: '9.5', label: '3/8 in', from: '100', to: '100' },
      { size: '4.75', label: 'No. 4', from: '90', to: '100', tolerance: '5' },
    ],
    source,
    certainty: 'published',
  },
  limits: [limit()],
  ...more,
})
const post = (path: string, body: object, who: 'engineer' | 'manager' | 'technician' = 'engineer') =>
  lab
    .as(who)
    .post(lab.path(`/specifications${path}`))
    .send(body)
const made = async (more: object = {}) => (await post('/own', written(more)).expect(201)).body
const historyOf = async (id: string) =>
  (
    await lab
      .as('auditor')
      .get(lab.path(`/specifications/${id}`))
      .expect(200)
  ).body

describe('a specification of the laboratory’s own', () => {
  it('holds limits, bands and rules as they were written, with who wrote it', async () => {
    const uncertainty = { expanded: '12', coverageFactor: '2', source: 'repeatability record' }
    const guarded = limit({
      decisionRule: 'guard band',
      rounding: 'half-even',
      uncertainty,
      clause: '4.2',
      value: '150',
    })
    const specification = await made({ limits: [guarded] })
    expect(specification).toMatchObject({
      key: 'own',
      version: 1,
      standing: 'current',
      lineId: specification.id,
      by: { name: 'Person engineer' },
      decisionRule: 'guard band of U = 12 s, k = 2 (repeatability record; ILAC-G8:09/2019)',
      comparison: expect.stringContaining('halves to even'),
    })
    expect(specification.limits[0]).toMatchObject({ clause: '4.2', group: 'mix', uncertainty, upper: null })
    expect(specification.limits[0].comparison).toContain('guard band of U = 12 s')
    expect(specification.gradationBand.sieves[1]).toEqual({
      size: '4.75',
      label: 'No. 4',
      from: '90',
      to: '100',
      tolerance: '5',
    })
  })

  it('what cannot stand is refused beside its field', async () => {
    const paths = async (more: object) =>
      (await post('/own', written(more)).expect(400)).body.errors.map(({ path }: { path: string }) => path)
    expect(await paths({ limits: [] })).toEqual(['limits'])
    expect(await paths({ limits: [limit({ label: ' ' })] })).toEqual(['limits.0.label'])
    expect(await paths({ limits: [limit({ value: '15O' })] })).toEqual(['limits.0.value'])
    expect(await paths({ limits: [limit({ sense: 'between' })] })).toEqual(['limits.0.upper'])
    expect(await paths({ limits: [limit({ decisionRule: 'non-binary' })] })).toEqual(['limits.0.uncertainty.expanded'])
    expect(await paths({ limits: [limit(), limit({ key: 'again' })] })).toEqual(['limits.1.property'])
    expect(await paths({ residualBand: { from: '9', to: '8', source, certainty: 'published' } })).toEqual([
      'residualBand.to',
    ])
  })

  it('the same request twice at once is one; it stands in the ledger', async () => {
    const body = written()
    const answers = await Promise.all([post('/own', body), post('/own', body)])
    expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 201])
    const entries = await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, ({ prisma }) =>
      prisma.ledgerEntry.findMany({ where: { subjectId: body.id }, select: { action: true } }),
    )
    expect(entries).toEqual([{ action: 'specification:write' }])
  })
})

describe('a version', () => {
  it('follows the one before, which stays, and says what it changed and why', async () => {
    const first = await made()
    const next = written({ limits: [limit({ value: '180' })], reason: 'Addendum 2' })
    const { body } = await post(`/${first.id}/versions`, next, 'manager').expect(201)
    expect(body).toMatchObject({ version: 2, standing: 'current', lineId: first.id, reason: 'Addendum 2' })
    const history = await historyOf(first.id)
    expect(history.specification).toMatchObject({ id: first.id, standing: 'superseded' })
    expect(history.specification.limits[0].value).toBe('150')
    expect(
      history.versions.map(({ version, by }: { version: number; by: { name: string } }) => [version, by.name]),
    ).toEqual([
      [2, 'Person manager'],
      [1, 'Person engineer'],
    ])
    expect(history.versions[0].changes).toEqual([
      {
        what: 'Mix time',
        before: expect.stringContaining('at least 150 s'),
        after: expect.stringContaining('at least 180 s'),
      },
    ])
  })

  it('of an adopted copy keeps the contract’s change and the printed figures of limits that stay', async () => {
    const adopted = (
      await post('', {
        id: newId(),
        builtInKey: 'issa-a143-2010',
        name: 'Contract 12',
        aggregateType: 'Type II',
        traffic: 'heavy',
        changes: [{ limitKey: 'abrasion-loss-6-day', value: '650', reason: 'clause 4' }],
      }).expect(201)
    ).body
    const kept = ({
      usValue: _u,
      usUnit: _v,
      alsoPublished: _a,
      comparison: _c,
      changedFrom: _f,
      changeReason: _r,
      ...rest
    }: Record<string, unknown>) => rest
    const { unit: _unit, changedFrom: _changed, ...band } = adopted.residualBand
    const next = (changed: object) =>
      written({
        name: 'Contract 12',
        residualBand: band,
        gradationBand: adopted.gradationBand,
        limits: adopted.limits
          .map(kept)
          .map((each: { key: string }) => (each.key === 'mix-time' ? { ...each, ...changed } : each)),
        source: adopted.source,
        reason: 'Addendum',
      })
    // The document that holds 120 s does not hold 150 s.
    const refused = await post(`/${adopted.id}/versions`, next({ value: '150' })).expect(400)
    expect(refused.body.errors).toEqual([
      { path: 'limits.3.source', message: expect.stringContaining('name the document that asks for it') },
    ])
    const sourced = { source: 'Addendum 1', certainty: 'by contract' }
    const { body } = await post(`/${adopted.id}/versions`, next({ value: '150', ...sourced })).expect(201)
    const limitOf = (key: string) => body.limits.find((each: { key: string }) => each.key === key)
    expect(limitOf('abrasion-loss-6-day')).toMatchObject({
      value: '650',
      changedFrom: { value: '807' },
      certainty: 'by contract',
    })
    expect(limitOf('abrasion-loss-1-hour')).toMatchObject({ usValue: '50' })
    expect(limitOf('mix-time')).toMatchObject({ value: '150', alsoPublished: [], changedFrom: null })
    const { versions } = await historyOf(body.id)
    expect(versions[0].changes.map(({ what }: { what: string }) => what)).toEqual(['Mix time'])
  })

  it('two who edit at once: one is told, with what stands and what was sent', async () => {
    const first = await made()
    const next = (value: string) => written({ limits: [limit({ value })], reason: `Now ${value}` })
    const answers = await Promise.all([
      post(`/${first.id}/versions`, next('180')),
      post(`/${first.id}/versions`, next('200'), 'manager'),
    ])
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409])
    const stood = answers.find(({ status }) => status === 201)!.body
    const told = answers.find(({ status }) => status === 409)!.body
    expect(told).toMatchObject({ stored: { id: stood.id, version: 2 }, sent: { reason: expect.any(String) } })
    expect(told.detail).toContain('Version 2, by Person')
    expect((await historyOf(first.id)).versions).toHaveLength(2)
  })

  it('that only another test answers is a change, and keeps nothing of what was known of the old property', async () => {
    const first = await made()
    const moved = limit({ property: 'mix-time-at-job-temperature' })
    const { body } = await post(`/${first.id}/versions`, written({ limits: [moved], reason: 'Hot work' })).expect(201)
    const { versions } = await historyOf(body.id)
    expect(versions[0].changes).toEqual([
      {
        what: 'Mix time',
        before: expect.stringContaining('answered by results of mix-time'),
        after: expect.stringContaining('answered by results of mix-time-at-job-temperature'),
      },
    ])
  })

  it('of an adopted copy drops the figures printed elsewhere once a limit is of another property', async () => {
    const { specification: adopted } = await historyOf((await makeSpecification(testApp, lab)).id)
    const known = adopted.limits.find(({ alsoPublished }: { alsoPublished: object[] }) => alsoPublished.length > 0)
    const { unit: _unit, changedFrom: _from, ...residualBand } = adopted.residualBand
    const moved = adopted.limits.map((each: Record<string, unknown>) => {
      const {
        usValue: _u,
        usUnit: _v,
        alsoPublished: _a,
        comparison: _c,
        changedFrom: _f,
        changeReason: _r,
        ...rest
      } = each
      return rest.key === known.key ? { ...rest, property: `${String(rest.property)}-elsewhere` } : rest
    })
    const next = written({ residualBand, gradationBand: adopted.gradationBand, limits: moved, reason: 'Other test' })
    const { body } = await post(`/${adopted.id}/versions`, next).expect(201)
    const now = body.limits.find(({ key }: { key: string }) => key === known.key)
    expect(now).toMatchObject({ value: known.value, alsoPublished: [], usValue: null, changedFrom: null })
  })

  it('that changes nothing is not made', async () => {
    const body = written()
    await post('/own', body).expect(201)
    await post(`/${body.id}/versions`, { ...body, id: newId(), reason: 'Again' }).expect(422)
  })

  it('leaves a design with the version that it pins', async () => {
    const design = await makeDesign(testApp, lab)
    const adopted = design.specification
    const next = written({ name: 'Other limits', reason: 'Addendum' })
    await post(`/${adopted.id}/versions`, next).expect(201)
    const { body } = await lab
      .as('engineer')
      .get(lab.path(`/designs/${design.id}`))
      .expect(200)
    expect(body.specification).toMatchObject({ id: adopted.id, standing: 'superseded', version: 1 })
    expect((await historyOf(adopted.id)).versions.map(({ designs }: { designs: number }) => designs)).toEqual([0, 1])
  })
})

describe('a withdrawn specification', () => {
  const withdraw = (id: string, who: 'engineer' | 'manager' | 'technician' = 'manager') =>
    post(`/${id}/withdraw`, { id: newId(), reason: 'The standard was replaced.' }, who)

  it('is said to be so, with who and why, and takes no version any more', async () => {
    const first = await made()
    const { body } = await withdraw(first.id).expect(201)
    expect(body.withdrawn).toMatchObject({ by: { name: 'Person manager' }, reason: 'The standard was replaced.' })
    expect(body.specification.standing).toBe('withdrawn')
    await post(`/${first.id}/versions`, written({ limits: [limit({ value: '180' })], reason: 'Late' })).expect(409)
    await withdraw(first.id).expect(409)
  })

  it('is chosen by no further design; the one that pins it goes on', async () => {
    const design = await makeDesign(testApp, lab)
    await withdraw(design.specification.id).expect(201)
    const { body } = await lab
      .as('engineer')
      .get(lab.path(`/designs/${design.id}`))
      .expect(200)
    const patch = (change: object) =>
      lab
        .as('engineer')
        .patch(lab.path(`/designs/${design.id}`))
        .set('if-match', `"${body.version}"`)
        .send(change)
    await patch({ name: 'Renamed', specificationId: design.specification.id }).expect(200)
    const another = await makeSpecification(testApp, lab)
    await withdraw(another.id).expect(201)
    const refused = await lab
      .as('engineer')
      .patch(lab.path(`/designs/${design.id}`))
      .set('if-match', `"${body.version + 1}"`)
      .send({ specificationId: another.id })
      .expect(400)
    expect(refused.body.errors).toEqual([
      { path: 'specificationId', message: expect.stringContaining('was withdrawn') },
    ])
  })

  it.each(['pinned first', 'withdrawn first'])('withdrawn while a design pins it: %s', async (first) => {
    const { specification, ...design } = await makeDesign(testApp, lab)
    const other = await makeSpecification(testApp, lab)
    const pin = async () =>
      lab
        .as('engineer')
        .patch(lab.path(`/designs/${design.id}`))
        .set('if-match', `"${design.version}"`)
        .send({ specificationId: other.id })
    const acts = [pin, async () => withdraw(other.id)]
    const key = `specification ${lab.labId} ${other.key}`
    const held = { sql: 'select pg_advisory_xact_lock(hashtextextended($1, 0))', values: [key] }
    const [one, second] = await atOnce(testApp.ownerUrl, held, ...(first === 'pinned first' ? acts : acts.toReversed()))
    const now = await testApp.services.designs.read(lab.people.engineer.actor, design.id)
    expect((await historyOf(other.id)).withdrawn).not.toBeNull()
    if (first === 'pinned first') {
      expect([one, second]).toMatchObject([{ value: { status: 200 } }, { value: { status: 201 } }])
      expect(now.specification.id).toBe(other.id)
    } else {
      expect([one, second]).toMatchObject([
        { value: { status: 201 } },
        { value: { status: 400, body: { errors: [{ message: expect.stringContaining('was withdrawn') }] } } },
      ])
      expect(now.specification.id).toBe(specification.id)
    }
  })

  it('edited and withdrawn at once: one of the two stands', async () => {
    const first = await made()
    const next = written({ limits: [limit({ value: '180' })], reason: 'Addendum' })
    const answers = await Promise.all([post(`/${first.id}/versions`, next), withdraw(first.id)])
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409])
    const { versions, withdrawn } = await historyOf(first.id)
    expect(versions.length === 2).toBe(withdrawn === null)
  })
})

it('a technician writes nothing, a client sees nothing, another laboratory finds nothing', async () => {
  const first = await made()
  await post('/own', written(), 'technician').expect(403)
  await post(`/${first.id}/versions`, written({ reason: 'x' }), 'technician').expect(403)
  await post(`/${first.id}/withdraw`, { id: newId(), reason: 'x' }, 'technician').expect(403)
  await lab
    .as('client')
    .get(lab.path(`/specifications/${first.id}`))
    .expect(403)
  const elsewhere = await makeLaboratory(testApp)
  await elsewhere
    .as('manager')
    .get(elsewhere.path(`/specifications/${first.id}`))
    .expect(404)
})
