'use client'

import { QueryClient, QueryClientProvider } from '@tanstack/react-query'
import { useEffect, useState, type ReactNode } from 'react'
import { keptSince, onKept } from './kept-answer.ts'

/** One cache a browser tab. Nothing is polled or tried twice: live events say when something changed, Retry is a button. */
export function createQueryClient(): QueryClient {
  return new QueryClient({
    defaultOptions: {
      queries: { retry: false, staleTime: 60_000, networkMode: 'always', refetchOnWindowFocus: true },
      mutations: { retry: false, networkMode: 'always' },
    },
  })
}

export function QueryProvider({ children }: { children: ReactNode }) {
  const [client] = useState(createQueryClient)
  useEffect(() => {
    // What was drawn from this device is asked for again once the server answers.
    const look = () => keptSince() === undefined && void client.invalidateQueries()
    // The browser says that there is a network: the first answer will tell.
    const ask = () => keptSince() !== undefined && void client.invalidateQueries()
    const stop = onKept(look)
    window.addEventListener('online', ask)
    return () => {
      stop()
      window.removeEventListener('online', ask)
    }
  }, [client])
  return <QueryClientProvider client={client}>{children}</QueryClientProvider>
}
