'use client'

import { useQueryClient } from '@tanstack/react-query'
import { createContext, useContext, useEffect, useState, type ReactNode } from 'react'
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
    let lost = false
    listenLive(labId, stop.signal, {
      onEvent: ({ topics }) => void refreshTopics(client, topics),
      onState: (next) => {
        // What happened while the line was down is replayed by the server; a restarted one may know less than we missed.
        if (next === 'live' && lost) void client.invalidateQueries()
        lost = next === 'lost'
        setState(next)
      },
    })
    return () => stop.abort()
  }, [labId, client])
  return <LiveContext.Provider value={state}>{children}</LiveContext.Provider>
}
