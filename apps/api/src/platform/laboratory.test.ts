import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { startTestApp, type TestApp } from '../../../../tests/support/app.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../tests/support/factories/laboratory.ts'
import { createOnce } from './creation.ts'
import { problemOfDatabase } from './database-errors.ts'
import { runOnce } from './idempotency.ts'
import type { LaboratoryTransaction } from './laboratory.ts'
import { newId } from './uuid.ts'

let testApp: TestApp
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp()
})
afterAll(() => testApp.close())
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})

const actor = () => lab.people.manager.actor
const inLaboratory = <T>(work: (tx: LaboratoryTransaction) => Promise<T>) =>
  testApp.services.laboratory.inLaboratory(actor(), work)
const places = () => inLaboratory(({ prisma }) => prisma.place.count())
const entries = () => inLaboratory(({ prisma }) => prisma.ledgerEntry.count())
const place = (id = newId(), name = `Oven ${id}`) => ({
  labId: lab.labId,
  id,
  name,
  kind: 'oven',
  accessControlled: true,
})
const entry = (id: string) => ({
  action: 'material:create',
  subjectKind: 'place',
  subjectId: id,
  topics: ['materials'],
})

describe('a transaction in a laboratory', () => {
  test('keeps a change and its entry together, or neither', async () => {
    const before = await entries()
    await inLaboratory(async ({ prisma, record }) => {
      await prisma.place.createMany({ data: [place()] })
      record(entry(newId()))
    })
    await expect(
      inLaboratory(async ({ prisma, record }) => {
        await prisma.place.createMany({ data: [place()] })
        record(entry(newId()))
        throw new Error('thought better of it')
      }),
    ).rejects.toThrow('thought better')
    expect([await places(), await entries()]).toEqual([1, before + 1])
  })

  test('in which a statement failed unnoticed is not taken for done', async () => {
    const taken = place()
    await inLaboratory(({ prisma }) => prisma.place.createMany({ data: [taken] }))
    const swallowing = inLaboratory(async ({ prisma, record }) => {
      await prisma.place.createMany({ data: [place()] })
      await prisma.place.createMany({ data: [taken] }).catch(() => undefined)
      record(entry(newId()))
    })
    await expect(swallowing).rejects.toThrow()
    const raw = testApp.services.laboratory.inLaboratorySql(actor(), async (sql) => {
      sql.last('insert into place (lab_id, id, name, kind, access_controlled) values ($1, $2, $3, $4, true)', [
        lab.labId,
        taken.id,
        'Again',
        'oven',
      ])
      sql.record(entry(newId()))
    })
    await expect(raw).rejects.toMatchObject({ code: '23505' })
    const silent = testApp.services.laboratory.inLaboratorySql(actor(), (sql) =>
      sql.query('select 1/0').catch(() => undefined),
    )
    await expect(silent).rejects.toThrow('rolled back at its commit')
    expect(await places()).toBe(1)
  })

  test('leaves nothing of itself on its connection', async () => {
    await Promise.all(
      Array.from({ length: 30 }, () =>
        testApp.services.laboratory.inLaboratorySql(actor(), (sql) => sql.query('select 1')),
      ),
    )
    const shown = await Promise.all(
      Array.from({ length: 30 }, () => testApp.database.pool.query('select count(*)::int as n from place')),
    )
    expect(new Set(shown.map(({ rows }) => rows[0].n))).toEqual(new Set([0]))
  })

  test('whose connection is cut fails as a database that does not answer, and the next one works', async () => {
    const { laboratory } = testApp.services
    const cut = 'select pg_terminate_backend(pid) from pg_stat_activity where pid = pg_backend_pid()'
    const raw = await laboratory.inLaboratorySql(actor(), (sql) => sql.query(cut)).catch((error: unknown) => error)
    expect(problemOfDatabase(raw)).toMatchObject({ code: 'not-ready' })
    const prisma = await inLaboratory((tx) => tx.prisma.$queryRawUnsafe(cut)).catch((error: unknown) => error)
    expect(problemOfDatabase(prisma)).toMatchObject({ code: 'not-ready' })
    expect(await places()).toBe(0)
  })

  test('over bare SQL writes the same entry', async () => {
    const id = newId()
    await testApp.services.laboratory.inLaboratorySql(actor(), async (sql) =>
      sql.record({ ...entry(id), content: { note: 'x' }, clientId: lab.clientId }),
    )
    const [row] = await inLaboratory(({ prisma }) => prisma.ledgerEntry.findMany({ where: { subjectId: id } }))
    expect(row).toMatchObject({
      action: 'material:create',
      actorId: actor().membershipId,
      sessionId: actor().sessionId,
      clientId: lab.clientId,
      topics: ['materials', `client:${lab.clientId}`],
      at: testApp.clock.now(),
    })
    expect(JSON.parse(row!.content)).toMatchObject({
      id: row!.id,
      lab: lab.labId,
      subject: { kind: 'place', id },
      content: { note: 'x' },
      rows: [],
    })
  })
})

describe('a creation with the maker’s id', () => {
  const create = (id: string, name: string) =>
    createOnce(testApp.services.laboratory, actor(), {
      subjectKind: 'place',
      id,
      input: { id, name },
      find: ({ prisma }) => prisma.place.findUnique({ where: { labId_id: { labId: lab.labId, id } } }),
      create: async (tx) => {
        await tx.prisma.place.createMany({ data: [place(id, name)] })
        tx.record(entry(id))
        return tx.prisma.place.findUniqueOrThrow({ where: { labId_id: { labId: lab.labId, id } } })
      },
    })

  test('sent again is the same thing, also at the same moment', async () => {
    const id = newId()
    const outcomes = await Promise.all(Array.from({ length: 6 }, () => create(id, 'Oven 1')))
    expect(outcomes.filter(({ created }) => created)).toHaveLength(1)
    expect(new Set(outcomes.map(({ value }) => value.name))).toEqual(new Set(['Oven 1']))
    expect(await places()).toBe(1)
  })

  test('with other content under the id is a conflict that shows both', async () => {
    const id = newId()
    await create(id, 'Oven 1')
    await expect(create(id, 'Oven 2')).rejects.toMatchObject({
      code: 'conflict',
      extra: { stored: { name: 'Oven 1' }, sent: { name: 'Oven 2' } },
    })
  })

  test('with a name that is taken is refused, once', async () => {
    await create(newId(), 'Oven 1')
    await expect(create(newId(), 'Oven 1')).rejects.toMatchObject({ code: 'P2002' })
    expect(await places()).toBe(1)
  })
})

describe('an act with an idempotency key', () => {
  const act = (key: string | undefined, input: object) => {
    const id = newId()
    return runOnce(testApp.services.laboratory, actor(), {
      key,
      route: 'assignment:create',
      input,
      work: async (tx) => {
        await tx.prisma.place.createMany({ data: [place(id)] })
        tx.record(entry(id))
        return { id }
      },
    })
  }

  test('happens once, however often and at whatever moment it is sent', async () => {
    const key = newId()
    const answers = await Promise.all(Array.from({ length: 6 }, () => act(key, { to: 'x' })))
    expect(new Set(answers.map(({ id }) => id)).size).toBe(1)
    expect(await act(key, { to: 'x' })).toEqual(answers[0])
    expect(await places()).toBe(1)
  })

  test('is refused when the key belongs to another request', async () => {
    const key = newId()
    await act(key, { to: 'x' })
    await expect(act(key, { to: 'y' })).rejects.toMatchObject({ code: 'conflict' })
    await act(undefined, { to: 'x' })
    expect(await places()).toBe(2)
  })
})
