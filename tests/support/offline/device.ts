import { IDBFactory } from 'fake-indexeddb'
import { ended, exclusively } from '../../../apps/web/lib/exclusive.ts'
import type { NewOutboxEntry, OutboxEntry } from '../../../apps/web/lib/outbox/outbox-entry.ts'
import { openOutboxStore, type OutboxStore } from '../../../apps/web/lib/outbox/outbox-store.ts'
import { createOutbox, type Outbox, type OutboxNews, type Person } from '../../../apps/web/lib/outbox/outbox.ts'
import { sendEntry } from '../../../apps/web/lib/outbox/send-entry.ts'
import { byDeviceClock, type Clocks } from './clocks.ts'
import { tabAtWork } from './network.ts'

export type Tab = {
  readonly person: Person
  readonly outbox: Outbox
  readonly isClosed: () => boolean
  /** Resolves when the tab is closed. */
  readonly gone: Promise<void>
  /** What it does now, if anything. */
  readonly work: () => Promise<unknown> | undefined
  readonly wake: () => void
  readonly close: () => void
}
export type Device = ReturnType<typeof createDevice>

/** More rounds of sending than a sequence can have reasons for. */
const mostRounds = 300

/** A browser with its store and its tabs, each sending as the provider of the pages does. */
export function createDevice(clocks: Clocks) {
  // The store of a device that was never used.
  Object.assign(globalThis, { indexedDB: new IDBFactory() })
  const tabs = new Set<Tab>()

  async function open(person: Person): Promise<Tab> {
    const stop = new AbortController()
    const gone = ended(stop.signal)
    const store = ofTab(await openOutboxStore(), () => stop.signal.aborted)
    let awake: () => void = () => undefined
    let round: Promise<unknown> | undefined
    let woken = false
    const send = (entry: OutboxEntry) => tabAtWork.run(tab, () => byDeviceClock(clocks, () => sendEntry(entry)))
    const tell = (news: OutboxNews) => {
      for (const other of tabs) if (other !== tab && news.kind === 'changed' && news.toSend) other.wake()
    }
    const outbox = createOutbox({
      store,
      send: (entry) => untilClosed(send(entry), stop.signal),
      now: clocks.deviceNow,
      tell,
    })
    const tab: Tab = {
      person,
      outbox,
      isClosed: () => stop.signal.aborted,
      gone,
      work: () => round ?? (woken ? Promise.resolve() : undefined),
      wake: () => awake(),
      close() {
        tabs.delete(tab)
        stop.abort()
      },
    }
    tabs.add(tab)
    void exclusively(`curebook-outbox-${person.membershipId}`, stop.signal, async () => {
      while (!stop.signal.aborted) {
        const news = new Promise<void>((resolve) => {
          awake = () => {
            woken = true
            resolve()
          }
        })
        woken = false
        await (round = outbox.sendAll(person.membershipId))
        round = undefined
        // The time to try again is when the sequence says so; it wakes every tab then.
        await Promise.race([news, gone])
      }
    })
    return tab
  }

  /** The tab in which this person works: one that is open, else a new one. */
  const tabOf = async (person: Person) =>
    [...tabs].find((tab) => tab.person.membershipId === person.membershipId) ?? open(person)

  /** What is done in a tab of this person; done again in another where the tab goes down in the middle. */
  async function inTabOf<T>(person: Person, work: (tab: Tab) => Promise<T>): Promise<T> {
    for (;;) {
      const tab = await tabOf(person)
      const done = await Promise.race([work(tab).then((value) => ({ value })), tab.gone])
      if (done) return done.value
    }
  }

  return {
    open,
    tabOf,
    tabs: (): readonly Tab[] => [...tabs],
    /** What was typed is put again where the tab went down before it was safe. */
    async enter(person: Person, entry: NewOutboxEntry): Promise<void> {
      let begun = false
      await inTabOf(person, async ({ outbox, wake }) => {
        if (begun && (await outbox.list()).some(({ id }) => id === entry.id)) return
        begun = true
        await outbox.put(person, entry)
        wake()
      })
    },
    /** What stands on the device. */
    kept: (person: Person): Promise<OutboxEntry[]> => inTabOf(person, ({ outbox }) => outbox.list()),
    takeOut: (person: Person, id: string) => inTabOf(person, ({ outbox }) => outbox.takeOut(id)),
    sendAgain: (person: Person, id: string) => inTabOf(person, ({ outbox }) => outbox.sendAgain(id)),
    /** Waits until no tab does anything. */
    async rest(): Promise<void> {
      let still = 0
      for (let turn = 0; still < 3; turn += 1) {
        if (turn > mostRounds)
          throw new Error('The tabs do not come to rest: they send again and again what nobody asked for')
        await new Promise((resolve) => setImmediate(resolve))
        const busy = [...tabs].filter((tab) => tab.work() !== undefined)
        still = busy.length === 0 ? still + 1 : 0
        await Promise.all(busy.map((tab) => Promise.race([tab.work(), tab.gone])))
      }
    },
  }
}

/** The store as one tab sees it: nothing comes back to the code of a closed one. */
function ofTab(store: OutboxStore, isClosed: () => boolean): OutboxStore {
  const whileOpen = async <T>(work: () => Promise<T>): Promise<T> => {
    if (isClosed()) return new Promise<T>(() => undefined)
    const value = await work()
    return isClosed() ? new Promise<T>(() => undefined) : value
  }
  return {
    all: () => whileOpen(store.all),
    put: (entry) => whileOpen(() => store.put(entry)),
    change: (ids, next) => whileOpen(() => store.change(ids, next)),
    remove: (id) => whileOpen(() => store.remove(id)),
  }
}

/** Neither does an answer. */
function untilClosed<T>(answer: Promise<T>, signal: AbortSignal): Promise<T> {
  return new Promise((resolve, reject) => {
    answer.then(
      (value) => void (signal.aborted || resolve(value)),
      (cause: unknown) => void (signal.aborted || reject(cause as Error)),
    )
  })
}
