'use client'

import { useQueryClient } from '@tanstack/react-query'
import { createContext, useCallback, useContext, useEffect, useMemo, useRef, useState, type ReactNode } from 'react'
import { ended, exclusively } from '../exclusive.ts'
import { refreshTopics } from '../live-topics.ts'
import { gatherTopics } from './gather-topics.ts'
import { createHearing, type Heard } from './hearing.ts'
import type { NewOutboxEntry, OutboxEntry, OutboxState } from './outbox-entry.ts'
import type { Outbox, OutboxNews, Person } from './outbox.ts'
import { sendEntry } from './send-entry.ts'

export type OutboxView = {
  /** Resolves once the entries are safe on the device, all or none; sending goes on by itself. */
  readonly put: (...entries: readonly NewOutboxEntry[]) => Promise<void>
  /** Puts entries in the place of refused ones, with what waits behind those behind these; sends nothing in between. */
  readonly replace: (ids: readonly string[], ...entries: readonly NewOutboxEntry[]) => Promise<void>
  /**
   * Listens for what comes of entries that are put next. `within` waits so many ms for it, and for what then changes on
   * screen; until `end` they are `awaited`.
   */
  readonly listen: (ids: readonly string[]) => AwaitedEntries
  /** Entries whose answer somebody waits for on this page: not told as waiting yet. */
  readonly awaited: ReadonlySet<string>
  /** Everything still on the device, other people's too (`membershipId` tells). */
  readonly entries: readonly OutboxEntry[]
  /** State of one entry; `stored` for those stored since this page was opened. */
  readonly stateOf: (id: string) => OutboxState | undefined
  /** The server's answer to a stored entry. */
  readonly answerOf: (id: string) => unknown
  readonly waiting: number
  readonly refused: number
  /** When the server last stored something from here, ISO. */
  readonly storedAt: string | undefined
  readonly sendAgain: (id: string) => Promise<void>
  readonly takeOut: (id: string) => Promise<void>
  /** Takes out those whose refusal was shown, unless something waits behind them. */
  readonly letGo: (ids: readonly string[]) => Promise<void>
}

export type AwaitedEntries = {
  readonly within: (ms: number) => Promise<ReadonlyMap<string, Heard>>
  readonly end: () => void
}

const OutboxContext = createContext<OutboxView | undefined>(undefined)

export function useOutbox(): OutboxView {
  const view = useContext(OutboxContext)
  if (view === undefined) throw new Error('useOutbox needs an OutboxProvider around it')
  return view
}

type Stored = { readonly at: string; readonly answer: unknown }
const CHANNEL = 'curebook-outbox'
/** Rows of one answer leave the device one by one, within this time (our own choice, no source). */
const GATHER_MS = 50
/** After this time code that did not come is asked for again (our own choice, no source). */
const FETCH_AGAIN_MS = 2_000
const noIds: ReadonlySet<string> = new Set()

export function OutboxProvider({ labId, membershipId, personName, children }: Person & { children: ReactNode }) {
  const client = useQueryClient()
  const opened = useRef<Promise<Outbox>>(undefined)
  const wake = useRef<() => void>(() => undefined)
  const channel = useRef<BroadcastChannel>(undefined)
  const [entries, setEntries] = useState<readonly OutboxEntry[]>([])
  const [stored, setStored] = useState<ReadonlyMap<string, Stored>>(new Map())

  const [awaited, setAwaited] = useState(noIds)
  const [hearing] = useState(createHearing)
  const fresh = useRef<Promise<void>>(Promise.resolve())
  const refresh = useMemo(() => gatherTopics((topics) => refreshTopics(client, topics), GATHER_MS), [client])

  const take = useCallback(
    (news: OutboxNews) => {
      void opened.current?.then((outbox) => outbox.list()).then(setEntries)
      if (news.kind !== 'changed') fresh.current = refresh(news.topics)
      hearing.note(news)
      if (news.kind === 'stored')
        setStored((before) => new Map(before).set(news.id, { at: news.at, answer: news.answer }))
    },
    [hearing, refresh],
  )

  useEffect(() => {
    const stop = new AbortController()
    const stopped = ended(stop.signal)
    const others = new BroadcastChannel(CHANNEL)
    channel.current = others
    others.onmessage = ({ data }: MessageEvent<OutboxNews>) => {
      take(data)
      if (data.kind === 'changed' && data.toSend) wake.current()
    }
    const tell = (news: OutboxNews) => {
      take(news)
      if (!stop.signal.aborted) others.postMessage(news)
    }
    // The device's store is loaded after the page is there: nothing on it waits for this code.
    const opening = fetchOutbox(stop.signal).then(async ([{ createOutbox }, { openOutboxStore }]) =>
      createOutbox({
        store: await openOutboxStore(),
        send: (entry) => sendEntry(entry),
        now: () => new Date(),
        tell,
      }),
    )
    opened.current = opening
    // That it cannot be opened is said to whoever puts something.
    void opening.then((outbox) => outbox.list()).then(setEntries, () => undefined)
    void exclusively(`${CHANNEL}-${membershipId}`, stop.signal, async () => {
      const outbox = await opening.catch(() => undefined)
      if (outbox === undefined) return
      while (!stop.signal.aborted) {
        const woken = new Promise<void>((resolve) => (wake.current = resolve))
        const wait = await outbox.sendAll(membershipId)
        await Promise.race([woken, stopped, ...(wait === undefined ? [] : [elapsed(wait)])])
      }
    })
    const online = () => wake.current()
    window.addEventListener('online', online)
    return () => {
      stop.abort()
      others.close()
      window.removeEventListener('online', online)
    }
  }, [membershipId, take])

  const view = useMemo<OutboxView>(() => {
    const withOutbox = async (act: (outbox: Outbox) => Promise<void>) => {
      if (opened.current === undefined) throw new Error('the outbox is not open yet')
      const outbox = await opened.current
      await act(outbox)
      wake.current()
      setEntries(await outbox.list())
    }
    const own = entries.filter((entry) => entry.membershipId === membershipId)
    return {
      put: (...made) => withOutbox((outbox) => outbox.put({ labId, membershipId, personName }, ...made)),
      replace: (ids, ...made) =>
        withOutbox((outbox) => outbox.replace({ labId, membershipId, personName }, ids, ...made)),
      listen: (ids) => {
        const { within, end } = hearing.listen(ids)
        setAwaited((before) => new Set([...before, ...ids]))
        return {
          within: async (ms) => {
            const heard = await within(ms)
            await Promise.race([fresh.current, elapsed(ms)]).catch(() => undefined)
            return heard
          },
          end: () => {
            end()
            setAwaited((before) => new Set([...before].filter((id) => !ids.includes(id))))
          },
        }
      },
      awaited,
      entries,
      stateOf: (id) => (stored.has(id) ? 'stored' : entries.find((entry) => entry.id === id)?.state),
      answerOf: (id) => stored.get(id)?.answer,
      waiting: own.filter(({ state }) => state !== 'refused').length,
      refused: own.filter(({ state }) => state === 'refused').length,
      storedAt: [...stored.values()].at(-1)?.at,
      sendAgain: (id) => withOutbox((outbox) => outbox.sendAgain(id)),
      takeOut: (id) => withOutbox((outbox) => outbox.takeOut(id)),
      letGo: (ids) => withOutbox((outbox) => outbox.letGo(ids)),
    }
  }, [entries, stored, awaited, hearing, labId, membershipId, personName])

  return <OutboxContext.Provider value={view}>{children}</OutboxContext.Provider>
}

/** Where the network went before this code came, it is asked for again: what is entered meanwhile is not said to be kept. */
async function fetchOutbox(stop: AbortSignal) {
  for (;;) {
    try {
      return await Promise.all([import('./outbox.ts'), import('./outbox-store.ts')])
    } catch (cause) {
      if (stop.aborted) throw cause
      await elapsed(FETCH_AGAIN_MS)
    }
  }
}

function elapsed(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds))
}
