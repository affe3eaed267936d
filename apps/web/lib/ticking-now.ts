'use client'

import { useEffect, useState } from 'react'

/**
 * The laboratory's time, moving: the server's `now` plus what has passed on this device since it arrived. Recomputed from
 * timestamps at each tick and when the page is looked at again, so a sleeping tablet is right the moment it wakes.
 */
export function useTickingNow(serverNow: string, everyMs = 1_000): number {
  const [offset, setOffset] = useState(() => Date.parse(serverNow) - Date.now())
  const [at, setAt] = useState(() => Date.parse(serverNow))
  useEffect(() => {
    const next = Date.parse(serverNow) - Date.now()
    setOffset(next)
    setAt(Date.parse(serverNow))
  }, [serverNow])
  useEffect(() => {
    const tick = () => setAt(Date.now() + offset)
    const timer = setInterval(tick, everyMs)
    document.addEventListener('visibilitychange', tick)
    return () => {
      clearInterval(timer)
      document.removeEventListener('visibilitychange', tick)
    }
  }, [offset, everyMs])
  return at
}
