import type { RecordAct } from '@curebook/contract/custody'
import { expect, test, beforeAll, afterAll } from 'vitest'
import { newId } from '#platform/uuid'
import { connect } from '../../../../../tests/support/as-login.ts'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { makeMaterial } from '../../../../../tests/support/factories/design.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'
import { createStandingCheck } from './standing-check.service.ts'

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

async function act(lab: TestLaboratory, itemId: string, body: object, person: PersonKey = 'technician') {
  const { actor } = lab.people[person]
  testApp.clock.advance({ minutes: 1 })
  const at = testApp.clock.now().toISOString()
  const { custody } = await testApp.services.custody.read(actor, itemId)
  const time = { eventAt: at, eventFrom: 'now', sentAt: at }
  await testApp.services.custody.record(actor, itemId, {
    id: newId(),
    after: custody.lastEventId,
    time,
    ...body,
  } as RecordAct)
}

/** A laboratory in which every way of standing occurs. */
async function everyStanding() {
  const lab = await makeLaboratory(testApp)
  const make = async () => (await makeMaterial(testApp, lab, 'filler')).id
  const [taken, placed, offered, kept, sent, returned, disposed, lost, split] = (await Promise.all(
    Array.from({ length: 9 }, make),
  )) as [string, string, string, string, string, string, string, string, string]
  const { value: store } = await testApp.services.places.create(lab.people.manager.actor, {
    id: newId(),
    name: 'Store',
    kind: 'store',
    accessControlled: true,
  })
  await act(lab, taken, { kind: 'taken' }, 'technician2')
  await act(lab, placed, { kind: 'placed', placeId: store.id })
  await act(lab, offered, { kind: 'offered', to: 'Carrier' })
  await act(lab, kept, { kind: 'offered', to: 'Carrier' })
  await act(lab, kept, { kind: 'refused', note: 'No room' })
  await act(lab, sent, { kind: 'sent', to: 'Carrier', signedFor: 'Note 7' })
  await act(lab, returned, { kind: 'returned', to: 'Merchant', signedFor: 'Note 8' })
  await act(lab, disposed, { kind: 'disposed', note: 'Old' })
  await act(lab, lost, { kind: 'gap', note: 'Found in the yard' }, 'engineer')
  await act(lab, split, { kind: 'split', pieces: [{ id: newId(), kind: 'bag', mass: '300' }], weighed: '1000.50' })
  return { lab, disposed }
}

test('who has what is what the events say, in every way of standing, and a difference is found and rebuilt', async () => {
  const { lab, disposed } = await everyStanding()
  const check = createStandingCheck(testApp.services)
  expect(await check.check(lab.labId)).toEqual([])

  const owner = await connect(testApp.ownerUrl)
  await owner.query(`update item_now set status = 'with', custodian_id = $3 where lab_id = $1 and item_id = $2`, [
    lab.labId,
    disposed,
    lab.people.manager.actor.membershipId,
  ])
  await owner.end()
  expect(await check.check(lab.labId)).toMatchObject([
    { itemId: disposed, stored: expect.stringMatching(/^with/), rebuilt: expect.stringMatching(/^disposed/) },
  ])
  await check.rebuild(lab.labId)
  expect(await check.check(lab.labId)).toEqual([])
})

test('rebuilt while somebody takes it over, it has the one who took it', async () => {
  const lab = await makeLaboratory(testApp)
  const { id } = await makeMaterial(testApp, lab, 'filler')
  const check = createStandingCheck(testApp.services)
  const owner = await connect(testApp.ownerUrl)
  await owner.query(`update item_now set mass = 1 where lab_id = $1 and item_id = $2`, [lab.labId, id])
  await owner.end()
  expect(await check.check(lab.labId)).toHaveLength(1)
  const held = { sql: 'select from item_now where item_id = $1 for update', values: [id] }
  const outcomes = await atOnce(
    testApp.ownerUrl,
    held,
    () => act(lab, id, { kind: 'taken' }, 'technician2'),
    () => check.rebuild(lab.labId),
  )
  expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'fulfilled'])
  expect(await check.check(lab.labId)).toEqual([])
  const { custody } = await testApp.services.custody.read(lab.people.manager.actor, id)
  expect(custody).toMatchObject({ custodian: { membershipId: lab.people.technician2.actor.membershipId } })
})
