import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { startTestApp, type TestApp } from '../../../../tests/support/app.ts'
import { atOnce } from '../../../../tests/support/at-once.ts'
import { makeDesign, makeProject } from '../../../../tests/support/factories/design.ts'
import { makeInstrument } from '../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type PersonKey, type TestLaboratory } from '../../../../tests/support/factories/laboratory.ts'

type Server = Pick<TestApp, 'services'>
/** A thing with a version, at which row two edits of it meet, and how it is edited from the version that was read. */
type Edited = {
  readonly id: string
  readonly version: number
  readonly row: readonly [sql: string, id: string]
  readonly edit: (server: Server, name: string, who?: PersonKey) => Promise<{ name: string; version: number }>
}

let testApp: TestApp
let another: Awaited<ReturnType<TestApp['startAnother']>>
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  another = await testApp.startAnother()
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(async () => {
  await another.close()
  await testApp.close()
})

const actorOf = (who: PersonKey) => lab.people[who].actor
const laboratoryRow = 'select from laboratory where id = $1 for update'

const things: Record<string, () => Promise<Edited>> = {
  'a project': async () => {
    const { id, version } = await makeProject(testApp, lab)
    return {
      ...{ id, version, row: ['select from project where id = $1 for update', id] },
      edit: ({ services }, name, who = 'manager') => services.projects.update(actorOf(who), id, { name }, version),
    }
  },
  'the settings': async () => ({
    ...{ id: lab.labId, version: 1, row: [laboratoryRow, lab.labId] },
    edit: ({ services }, name, who = 'manager') => services.laboratories.update(actorOf(who), 1, { name }),
  }),
  'a person': async () => {
    const { membershipId: id } = actorOf('technician')
    return {
      ...{ id, version: 1, row: [laboratoryRow, lab.labId] },
      edit: ({ services }, name, who = 'manager') => services.people.update(actorOf(who), id, 1, { name }),
    }
  },
  'a design': async () => {
    const { id, revisionId, version } = await makeDesign(testApp, lab)
    return {
      ...{ id: revisionId, version, row: ['select from design where id = $1 for update', id] },
      edit: ({ services }, name, who = 'manager') => services.designs.update(actorOf(who), id, { name }, version),
    }
  },
  'an instrument': async () => {
    const { id, version } = await makeInstrument(testApp, lab)
    return {
      ...{ id, version, row: ['select from instrument where id = $1 for update', id] },
      edit: ({ services }, name, who = 'manager') =>
        services.instruments.update(actorOf(who), id, { name, reason: 'The label was read again' }, version),
    }
  },
}

describe.each(Object.entries(things))('an edit of %s', (_, make) => {
  /** Edits that meet at its row, each through a server of its own. */
  const meeting = ({ row: [sql, id], edit }: Edited, one: string, other: string) =>
    atOnce(
      testApp.ownerUrl,
      { sql, values: [id] },
      () => edit(testApp, one),
      () => edit(another, other),
    )

  it('at once with another one: one stands, and the other is told what does', async () => {
    const thing = await make()
    const [first, second] = await meeting(thing, 'One', 'Two')
    const stored = { name: 'One', version: thing.version + 1 }
    expect(first).toMatchObject({ status: 'fulfilled', value: stored })
    expect(second).toMatchObject({ reason: { code: 'changed-meanwhile', extra: { stored } } })
  })

  it('sent twice at once is one edit, and sent again after a lost answer too', async () => {
    const thing = await make()
    const [first, second] = await meeting(thing, 'One', 'One')
    const stored = { name: 'One', version: thing.version + 1 }
    expect([first, second]).toMatchObject([
      { status: 'fulfilled', value: stored },
      { status: 'fulfilled', value: stored },
    ])
    expect(await thing.edit(testApp, 'One')).toMatchObject(stored)
    const entries = await testApp.services.laboratory.inLaboratory(actorOf('manager'), ({ prisma }) =>
      prisma.ledgerEntry.count({ where: { labId: lab.labId, subjectId: thing.id, action: { endsWith: ':update' } } }),
    )
    expect(entries).toBe(1)
  })

  it('in the same words by somebody else is no repetition', async () => {
    const thing = await make()
    await thing.edit(testApp, 'One')
    await expect(thing.edit(testApp, 'One', 'engineer')).rejects.toMatchObject({ code: 'changed-meanwhile' })
  })
})

it('an edit sent again behind somebody else’s answers what stands now', async () => {
  const { id } = await makeProject(testApp, lab)
  const edit = (who: PersonKey, name: string, version: number) =>
    testApp.services.projects.update(actorOf(who), id, { name }, version)
  await edit('manager', 'One', 1)
  await edit('engineer', 'Two', 2)
  expect(await edit('manager', 'One', 1)).toMatchObject({ name: 'Two', version: 3 })
})
