'use client'

import { useQueryClient } from '@tanstack/react-query'
import { createContext, useCallback, useContext, useEffect, useMemo, useRef, useState, type ReactNode } from 'react'
import { ended, exclusively } from '../exclusive.ts'
import { refreshTopics } from '../live-topics.ts'
import type { NewOutboxEntry, OutboxEntry, OutboxState } from './outbox-entry.ts'
import type { Outbox, OutboxNews, Person } from './outbox.ts'
import { sendEntry } from './send-entry.ts'

export type OutboxView = {
  /** Resolves once the entry is safe on the device; sending goes on by itself. */
  readonly put: (entry: NewOutboxEntry) => Promise<void>
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
}

const OutboxContext = createContext<OutboxView | undefined>(undefined)

export function useOutbox(): OutboxView {
  const view = useContext(OutboxContext)
  if (view === undefined) throw new Error('useOutbox needs an OutboxProvider around it')
  return view
}

type Stored = { readonly at: string; readonly answer: unknown }
const CHANNEL = 'curebook-outbox'

export function OutboxProvider({ labId, membershipId, personName, children }: Person & { children: ReactNode }) {
  const client = useQueryClient()
  const opened = useRef<Promise<Outbox>>(undefined)
  const wake = useRef<() => void>(() => undefined)
  const channel = useRef<BroadcastChannel>(undefined)
  const [entries, setEntries] = useState<readonly OutboxEntry[]>([])
  const [stored, setStored] = useState<ReadonlyMap<string, Stored>>(new Map())

  const take = useCallback(
    (news: OutboxNews) => {
      void opened.current?.then((outbox) => outbox.list()).then(setEntries)
      if (news.kind === 'changed') return
      if (news.kind === 'stored')
        setStored((before) => new Map(before).set(news.id, { at: news.at, answer: news.answer }))
      void refreshTopics(client, news.topics)
    },
    [client],
  )

  useEffect(() => {
    const stop = new AbortController()
    const others = new BroadcastChannel(CHANNEL)
    channel.current = others
    others.onmessage = ({ data }: MessageEvent<OutboxNews>) => {
      take(data)
      if (data.kind === 'changed') wake.current()
    }
    const tell = (news: OutboxNews) => {
      take(news)
      if (!stop.signal.aborted) others.postMessage(news)
    }
    // The device's store is loaded after the page is there: nothing on it waits for this code.
    const opening = Promise.all([import('./outbox.ts'), import('./outbox-store.ts')]).then(
      async ([{ createOutbox }, { openOutboxStore }]) =>
        createOutbox({
          store: await openOutboxStore(),
          send: sendEntry,
          now: () => new Date(),
          tell,
        }),
    )
    opened.current = opening
    void opening.then((outbox) => outbox.list()).then(setEntries)
    void exclusively(`${CHANNEL}-${membershipId}`, stop.signal, async () => {
      const outbox = await opening
      while (!stop.signal.aborted) {
        const woken = new Promise<void>((resolve) => (wake.current = resolve))
        const wait = await outbox.sendAll(membershipId)
        await Promise.race([woken, ended(stop.signal), ...(wait === undefined ? [] : [elapsed(wait)])])
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
      await act(await opened.current)
      wake.current()
    }
    const own = entries.filter((entry) => entry.membershipId === membershipId)
    return {
      put: (entry) => withOutbox((outbox) => outbox.put({ labId, membershipId, personName }, entry)),
      entries,
      stateOf: (id) => (stored.has(id) ? 'stored' : entries.find((entry) => entry.id === id)?.state),
      answerOf: (id) => stored.get(id)?.answer,
      waiting: own.filter(({ state }) => state !== 'refused').length,
      refused: own.filter(({ state }) => state === 'refused').length,
      storedAt: [...stored.values()].at(-1)?.at,
      sendAgain: (id) => withOutbox((outbox) => outbox.sendAgain(id)),
      takeOut: (id) => withOutbox((outbox) => outbox.takeOut(id)),
    }
  }, [entries, stored, labId, membershipId, personName])

  return <OutboxContext.Provider value={view}>{children}</OutboxContext.Provider>
}

function elapsed(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds))
}
