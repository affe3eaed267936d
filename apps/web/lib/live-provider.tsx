'use client'

import { useQueryClient } from '@tanstack/react-query'
import { createContext, useContext, useEffect, useState, type ReactNode } from 'react'
import { keptSince } from './kept-answer.ts'
import { listenLive, type LiveState } from './live-events.ts'
import { refreshTopics } from './live-topics.ts'

const LiveContext = createContext<LiveState>('live')

/** Whether changes of other people reach this screen by themselves at this moment. */
export function useLiveState(): LiveState {
  return useContext(LiveContext)
}

export function LiveProvider({ labId, children }: { labId: string; children: ReactNode }) {
  const client = useQueryClient()
  const [state, setState] = useState<LiveState>('live')
  useEffect(() => {
    const stop = new AbortController()
    listenLive(labId, stop.signal, ({ event, state: next, gap, ended }) => {
      if (event !== undefined) void refreshTopics(client, event.topics)
      if (next !== undefined) setState(next)
      // The line of a page that was opened without a network: nothing was heard before, and all of it is old.
      if (gap || (next === 'live' && keptSince() !== undefined)) void client.invalidateQueries()
      if (ended) void refreshTopics(client, ['session', 'laboratory'])
    })
    return () => stop.abort()
  }, [labId, client])
  return <LiveContext.Provider value={state}>{children}</LiveContext.Provider>
}
