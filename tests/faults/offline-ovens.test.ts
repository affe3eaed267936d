import 'fake-indexeddb/auto'
import type pg from 'pg'
import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest'
import { labPath } from '../../apps/web/lib/api-client.ts'
import { newId } from '../../apps/web/lib/new-id.ts'
import type { NewOutboxEntry } from '../../apps/web/lib/outbox/outbox-entry.ts'
import type { Person } from '../../apps/web/lib/outbox/outbox.ts'
import { startTestApp, type TestApp } from '../support/app.ts'
import { connect } from '../support/as-login.ts'
import { confirm, timeNow } from '../support/factories/bench.ts'
import { makeInstrument } from '../support/factories/instrument.ts'
import { createClocks } from '../support/offline/clocks.ts'
import { createDevice } from '../support/offline/device.ts'
import { createNetwork } from '../support/offline/network.ts'
import { makeBench, type Bench } from '../support/offline/people.ts'
import type { Fault, PersonKey } from '../support/offline/plan.ts'

/** Ovens while a tablet has no network: what others did meanwhile, and whose each value is. */

let testApp: TestApp
let bench: Bench
let owner: pg.Client
const realFetch = globalThis.fetch
const minute = 60_000

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  bench = await makeBench(testApp, 6)
  owner = await connect(testApp.ownerUrl)
})
afterEach(() => void vi.unstubAllGlobals())
afterAll(async () => {
  await owner?.end()
  await testApp?.close()
})

/** A tablet whose clock is so much ahead; whoever is signed in on it changes. */
function tablet(aheadMs = 0) {
  const { people, lab } = bench
  let signedIn: PersonKey | 'nobody' = 'first'
  const clocks = createClocks(testApp.clock, aheadMs)
  const network = createNetwork({
    url: testApp.url,
    clocks,
    cookie: () => (signedIn === 'nobody' ? undefined : people[signedIn].cookie),
    fetch: realFetch,
  })
  vi.stubGlobal('fetch', network.send)
  vi.stubGlobal('navigator', {})
  const device = createDevice(clocks)
  const personOf = (key: PersonKey): Person => {
    const { membershipId, name } = people[key].actor
    return { labId: lab.labId, membershipId, personName: name }
  }
  const time = () => {
    const at = clocks.deviceNow().toISOString()
    return { eventAt: at, eventFrom: 'now' as const, toldAt: at, sentAt: at }
  }
  const enter = async (who: PersonKey, entry: NewOutboxEntry, ...faults: readonly Fault[]) => {
    network.expect(entry.id, faults)
    await device.enter(personOf(who), entry)
    await device.rest()
  }
  return {
    clocks,
    time,
    enter,
    signIn: (who: PersonKey | 'nobody') => {
      signedIn = who
    },
    /** The time for trying again comes so often; what was given up on the device arrives. */
    async tryAgain(who: PersonKey, times = 3) {
      for (let round = 0; round < times; round += 1) {
        clocks.pass(minute)
        await network.deliverLate()
        await device.tabOf(personOf(who))
        for (const tab of device.tabs()) tab.wake()
        await device.rest()
      }
      await network.rest()
    },
    closeTabs: () => device.tabs().forEach((tab) => tab.close()),
    kept: async (who: PersonKey) => {
      const { membershipId } = personOf(who)
      return (await device.kept(personOf(who))).filter((entry) => entry.membershipId === membershipId)
    },
    takeOut: (who: PersonKey, id: string) => device.takeOut(personOf(who), id),
    sendAgain: (who: PersonKey, id: string) => device.sendAgain(personOf(who), id),
    /** A value of an oven's log, as the page writes it to the device. */
    value: (oven: string, typed: string): NewOutboxEntry => {
      const id = newId(clocks.trueNow())
      const path = labPath(lab.labId, 'instruments', oven, 'conditions')
      const body = { values: [{ id, value: typed, unit: '°C' }], time: time() }
      return { id, lane: `log/${oven}`, path, body, label: typed, topics: [] }
    },
  }
}

const logged = async (oven: string) =>
  (
    await owner.query<{ typed: string; at: Date; by: string }>(
      'select typed, observed_at as at, by_id as by from condition_value where instrument_id = $1 order by observed_at, typed',
      [oven],
    )
  ).rows
const isWhole = async () =>
  expect((await testApp.services.ledger.verify(bench.lab.people.manager.actor, {})).whole).toBe(true)
const far = (count: number): Fault[] => Array.from({ length: count }, () => 'no-network')

test('a load let out on a tablet that another device emptied meanwhile: refused, and the temperature is nowhere', async () => {
  const { lab, ovenId, people, takeTest } = bench
  const discs = [takeTest({ test: 'disc' }), takeTest({ test: 'disc' })]
  await confirm(testApp, lab, discs, 'cast', 'start')
  testApp.clock.advance({ hours: 1 })
  const load = newId(testApp.clock.now().getTime())
  const rows = () => discs.map((testId) => ({ id: newId(testApp.clock.now().getTime()), testId, stepKey: 'cure' }))
  const { services } = testApp
  await services.loads.putIn(lab.people.technician.actor, load, {
    ...{ opens: ovenId, rows: rows(), time: timeNow(testApp), temperature: null },
  })
  testApp.clock.advance({ hours: 2 })

  const made = tablet()
  const moved = rows()
  const out: NewOutboxEntry = {
    id: moved[0]!.id,
    lane: `load/${load}`,
    path: labPath(lab.labId, 'loads', load, 'out'),
    body: {
      rows: moved,
      time: made.time(),
      temperature: { id: newId(made.clocks.trueNow()), typed: '60.9', instrumentId: null },
      word: '',
    },
    label: 'out',
    topics: [],
    rows: moved.map(({ id, testId }) => ({ id, lane: testId, label: testId })),
  }
  await made.enter('first', out, 'no-network', 'answer-lost', 'late')
  await services.loads.takeOut(people.elsewhere.actor, load, {
    ...{ rows: rows(), time: timeNow(testApp), word: '' },
    temperature: { id: newId(testApp.clock.now().getTime()), typed: '60.1', instrumentId: null },
  })
  await made.tryAgain('first', 5)
  const refused = await made.kept('first')
  expect(refused.map(({ id, state }) => `${id} ${state}`).toSorted()).toEqual(
    moved.map(({ id }) => `${id} refused`).toSorted(),
  )
  await made.sendAgain('first', moved[0]!.id)
  await made.tryAgain('first')
  for (const { id } of await made.kept('first')) await made.takeOut('first', id)
  made.closeTabs()
  const temperatures = (await services.loads.read(people.elsewhere.actor, load)).temperatures
  expect(temperatures.map(({ typed }) => typed)).toEqual(['60.1'])
  const acts = await owner.query<{ by: string }>(
    `select by_id as by from step_event where test_id = any($1::uuid[]) and step_key = 'cure' and kind = 'end'`,
    [discs],
  )
  expect(acts.rows.map(({ by }) => by)).toEqual(discs.map(() => people.elsewhere.actor.membershipId))
  await isWhole()
})

test('values wait while their oven goes out of service, and while another is taken back: the first is kept, the other comes back', async () => {
  const { lab } = bench
  const manager = lab.people.manager.actor
  const [out, gone] = [
    await makeInstrument(testApp, lab, { code: 'OV-8', kind: 'oven', name: 'Oven that goes out' }),
    await makeInstrument(testApp, lab, { code: 'OV-9', kind: 'oven', name: 'Oven that is taken back' }),
  ]
  // Its clock is 90 minutes ahead, and what it sends is lost both ways.
  const made = tablet(90 * minute)
  const readAt = testApp.clock.now()
  const value = made.value(out.id, '60.4 °C')
  await made.enter('first', value, 'no-network', 'answer-lost', 'bad-gateway-after', 'late', 'closed-after')
  const [back, behind] = [made.value(gone.id, '59.7'), made.value(gone.id, '59.9')]
  await made.enter('first', back, ...far(2))
  await made.enter('first', behind)
  await testApp.services.instruments.update(manager, out.id, { state: 'out' }, out.version)
  await owner.query(`update instrument set state = 'out', withdrawn_at = now() where id = $1`, [gone.id])
  await made.tryAgain('first', 8)

  const [first] = await logged(out.id)
  expect(await logged(out.id)).toMatchObject([{ typed: '60.4 °C', by: bench.people.first.actor.membershipId }])
  expect(Math.abs(first!.at.getTime() - readAt.getTime())).toBeLessThan(minute)
  const left = await made.kept('first')
  expect(left.map(({ id, state }) => [id, state])).toEqual([
    [back.id, 'refused'],
    [behind.id, 'queued'],
  ])
  expect(left[0]).toMatchObject({
    body: { values: [{ value: '59.7' }] },
    problem: { message: expect.stringContaining('taken back') },
  })
  await made.takeOut('first', back.id)
  await made.tryAgain('first')
  expect(await made.kept('first')).toMatchObject([{ id: behind.id, state: 'refused' }])
  await made.takeOut('first', behind.id)
  made.closeTabs()
  expect(await logged(gone.id)).toEqual([])
  await isWhole()
})

test('signed out with values waiting, they wait for their person; another’s go by, and each stands under its own name', async () => {
  const { lab, people } = bench
  const oven = await makeInstrument(testApp, lab, { code: 'OV-4', kind: 'oven', name: 'Oven of two people' })
  const made = tablet()
  const times = [testApp.clock.now()]
  await made.enter('first', made.value(oven.id, '60.1'), ...far(2))
  made.clocks.pass(10 * minute)
  times.push(testApp.clock.now())
  await made.enter('first', made.value(oven.id, '60.3'))
  made.signIn('nobody')
  await made.tryAgain('first')
  made.closeTabs()
  made.signIn('second')
  made.clocks.pass(5 * minute)
  times.push(testApp.clock.now())
  await made.enter('second', made.value(oven.id, '60.5'), 'answer-cut')
  // A tab of the first person is still open somewhere: nothing of theirs goes under another name.
  await made.tryAgain('first')
  expect((await logged(oven.id)).map(({ typed }) => typed)).toEqual(['60.5'])
  expect((await made.kept('first')).map(({ state }) => state)).toEqual(['queued', 'queued'])
  made.closeTabs()
  made.signIn('first')
  await made.tryAgain('first')
  const { first, second } = people
  expect((await logged(oven.id)).map(({ typed, by }) => [typed, by])).toEqual([
    ['60.1', first.actor.membershipId],
    ['60.3', first.actor.membershipId],
    ['60.5', second.actor.membershipId],
  ])
  const read = (await logged(oven.id)).map(({ at }) => at.getTime())
  read.forEach((at, index) => expect(Math.abs(at - times[index]!.getTime())).toBeLessThan(minute))
  expect([...(await made.kept('first')), ...(await made.kept('second'))]).toEqual([])
  made.closeTabs()
  await isWhole()
})
