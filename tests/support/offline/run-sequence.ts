import type { EventTime } from '@curebook/contract/common'
import { labPath } from '../../../apps/web/lib/api-client.ts'
import { newId } from '../../../apps/web/lib/new-id.ts'
import { headsOf, lanesOf } from '../../../apps/web/lib/outbox/lanes.ts'
import type { NewOutboxEntry, OutboxEntry } from '../../../apps/web/lib/outbox/outbox-entry.ts'
import type { Person } from '../../../apps/web/lib/outbox/outbox.ts'
import type { TestApp } from '../app.ts'
import { aReading } from '../factories/bench.ts'
import { createClocks } from './clocks.ts'
import { createDevice } from './device.ts'
import { type Attempt, createNetwork } from './network.ts'
import type { Bench } from './people.ts'
import type { LanePlan, Moment, PersonKey, PlannedEntry, Sequence, Wanted } from './plan.ts'
import { createTabLocks } from './tab-locks.ts'

/** Something that a person entered: what must be found in the record, or on the device. */
export type Entered = {
  readonly id: string
  readonly lane: string
  /** All that it stands in on the device: its specimen's, and the load's. */
  readonly lanes: readonly string[]
  /** Of all that was entered in the sequence, in which place. */
  readonly place: number
  readonly membershipId: string
  readonly wanted: Wanted
  readonly body: { readonly time: EventTime }
  /** True time and the device's clock ahead of it when it was entered. */
  readonly trueAt: number
  readonly ahead: number
  /** Of a withdrawal: the reading that it takes back. */
  readonly takesBack: string | undefined
}
export type Lane = LanePlan & { readonly testId: string; readonly entered: Entered[] }
export type Outcome = {
  readonly lanes: readonly Lane[]
  /** What stood on the device when nothing more would go without a person. */
  readonly held: readonly OutboxEntry[]
  /** Every refusal that a person had to look at, in the order in which they came. */
  readonly refused: readonly OutboxEntry[]
  readonly left: readonly OutboxEntry[]
  readonly attemptsOf: (id: string) => readonly Attempt[]
}

type Globals = { fetch: typeof fetch; navigator: { locks?: LockManager } }

/** How long something stays in the oven here. */
const stayMs = 3_600_000

/** More than a sequence has faults for one lane. */
const mostRounds = 30

/** What a person does between two things they enter, and what a page takes to open, ms of true time. */
const betweenMs = 3_000

/** Plays a sequence, then makes the network good, and lets each person send and settle what was refused. */
export async function runSequence(
  testApp: TestApp,
  { lab, people, ovenId, loggedId }: Pick<Bench, 'lab' | 'people' | 'ovenId' | 'loggedId'>,
  sequence: Sequence,
  takeTest: Bench['takeTest'],
  stub: (globals: Globals) => void,
  realFetch: typeof fetch,
): Promise<Outcome> {
  const clocks = createClocks(testApp.clock, sequence.aheadMs)
  let signedIn: PersonKey | 'nobody' = sequence.lanes[0]!.person
  const network = createNetwork({
    url: testApp.url,
    clocks,
    cookie: () => (signedIn === 'nobody' ? undefined : people[signedIn].cookie),
    fetch: realFetch,
  })
  stub({ fetch: network.send, navigator: sequence.locks ? { locks: createTabLocks() } : {} })
  const device = createDevice(clocks)
  // Whoever puts something into the oven puts it into this load.
  const load = { id: newId(clocks.trueNow()), ovenId }
  let place = 0
  const lanes: Lane[] = sequence.lanes.map((plan) => ({ ...plan, testId: takeTest(plan), entered: [] }))
  const personOf = (key: PersonKey): Person => {
    const { membershipId, name } = people[key].actor
    return { labId: lab.labId, membershipId, personName: name }
  }

  async function enter(lane: Lane, { wanted, faults }: PlannedEntry): Promise<void> {
    if (wanted.kind === 'reading' && wanted.spoilt === 'conflict') await enterElsewhere(lane.testId, wanted)
    // What was put in comes out later than any request is under way for.
    if ((wanted.kind === 'act' && wanted.act === 'end') || (wanted.kind === 'move' && wanted.way === 'out')) {
      await device.rest()
      await network.deliverLate()
      await network.rest()
      clocks.pass(stayMs)
    }
    const now = clocks.deviceNow()
    const id = newId(now.getTime())
    const at = now.toISOString()
    const time: EventTime = { eventAt: at, eventFrom: 'now', toldAt: at, sentAt: at }
    const before = lane.entered.at(-1)
    const entry = entryOf({ labId: lab.labId, testId: lane.testId, load, loggedId }, id, wanted, time, before?.id)
    const person = personOf(lane.person)
    lane.entered.push({
      id,
      lane: lane.testId,
      lanes: lanesOf(entry),
      place: (place += 1),
      membershipId: person.membershipId,
      wanted,
      body: entry.body,
      trueAt: clocks.trueNow(),
      ahead: clocks.ahead(),
      takesBack: wanted.kind === 'withdrawal' ? before?.id : undefined,
    })
    network.expect(id, faults)
    await device.enter(person, entry)
    clocks.pass(betweenMs)
  }

  /** The same slot, another value, by somebody at another device, who was first. */
  async function enterElsewhere(testId: string, { stepKey, key }: Extract<Wanted, { kind: 'reading' }>): Promise<void> {
    const typed = key === 'hose' ? 'new' : key === 'broke-in-bowl' ? 'no' : '25.5'
    const reading = aReading(testApp, stepKey, key, typed)
    await testApp.services.bench.readings.post(people.elsewhere.actor, testId, reading)
  }

  async function tryAgain(): Promise<void> {
    clocks.pass(betweenMs)
    const late = network.deliverLate()
    for (const tab of device.tabs()) tab.wake()
    await Promise.all([late, device.rest()])
  }

  async function play(moment: Moment): Promise<void> {
    switch (moment.do) {
      case 'enter': {
        const lane = lanes[moment.lane]!
        const next = () => lane.entries[lane.entered.length]
        const planned = next()
        if (planned) await enter(lane, planned)
        // Taken back at once, and entered anew: the page offers it for a moment only.
        if (next()?.wanted.kind === 'withdrawal') await enter(lane, next()!)
        return
      }
      case 'clock':
        return clocks.put(moment.aheadMs)
      case 'pass':
        return clocks.pass(moment.seconds * 1000)
      case 'try':
        return tryAgain()
      case 'sign-in':
        signedIn = moment.who
        return
      case 'open-tab':
        return void (await device.open(personOf(moment.who)))
      case 'close-tab':
        return device.tabs()[0]?.close()
    }
  }

  /** Everybody in turn, alone in the browser, until nothing changes any more. */
  async function sendEverything(): Promise<readonly OutboxEntry[]> {
    for (const who of ['first', 'second'] as const) {
      for (const tab of device.tabs()) tab.close()
      signedIn = who
      const { membershipId } = personOf(who)
      // What stands first in its lanes: what stands behind a refusal waits for the person.
      const waits = async () => {
        const own = (await device.kept(personOf(who))).filter((entry) => entry.membershipId === membershipId)
        return headsOf(own).some(({ state }) => state !== 'refused')
      }
      for (let round = 0; round < mostRounds && (round === 0 || (await waits())); round += 1) {
        await device.tabOf(personOf(who))
        await tryAgain()
      }
    }
    await network.rest()
    return device.kept(personOf('first'))
  }

  for (const moment of sequence.moments) await play(moment)
  const held = await sendEverything()
  const refused: OutboxEntry[] = []
  let left = held
  for (let looks = 0; looks < mostRounds && left.some(({ state }) => state === 'refused'); looks += 1) {
    for (const entry of left.filter(({ state }) => state === 'refused')) {
      refused.push(entry)
      await device.takeOut(personOf('first'), entry.id)
    }
    left = await sendEverything()
  }
  for (const tab of device.tabs()) tab.close()
  return { lanes, held, refused, left, attemptsOf: network.attemptsOf }
}

/** As the pages write it to the device. */
function entryOf(
  {
    labId,
    testId,
    load,
    loggedId,
  }: { labId: string; testId: string; load: { id: string; ovenId: string }; loggedId: string },
  id: string,
  wanted: Wanted,
  time: EventTime,
  before: string | undefined,
): Omit<NewOutboxEntry, 'body'> & { readonly body: Entered['body'] & Readonly<Record<string, unknown>> } {
  const one = { id, lane: testId, label: id, topics: [] }
  switch (wanted.kind) {
    case 'reading': {
      const { stepKey, key, typed } = wanted
      const body = { id, stepKey, key, repeat: 1, typed, instrumentId: null, time, confirmedOdd: false, deviceId: null }
      return { ...one, path: labPath(labId, 'tests', testId, 'readings'), body }
    }
    case 'act': {
      const { stepKey, act: kind } = wanted
      const body = { stepKey, kind, rows: [{ id, testId }], instrumentId: null, time }
      return { ...one, path: labPath(labId, 'step-events'), body }
    }
    case 'move': {
      const { stepKey, way } = wanted
      const said = way === 'in' ? { opens: load.ovenId } : { word: '' }
      const body = { rows: [{ id, testId, stepKey }], time, temperature: null, ...said }
      const rows = [{ id, lane: testId, label: id }]
      return { ...one, lane: `load/${load.id}`, path: labPath(labId, 'loads', load.id, way), body, rows }
    }
    case 'log': {
      const path = labPath(labId, 'instruments', loggedId, 'conditions')
      const body = { values: [{ id, value: wanted.typed, unit: '°C' }], time }
      return { ...one, lane: `log/${loggedId}`, path, body }
    }
    case 'withdrawal':
      return { ...one, path: labPath(labId, 'readings', before!, 'withdrawal'), body: { id, time } }
  }
}
