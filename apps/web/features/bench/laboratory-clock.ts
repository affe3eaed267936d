'use client'

import { createContext, useContext, useEffect, useState } from 'react'

/**
 * What the laboratory's clock is ahead of this device's, in ms. Taken when an answer arrives, not when it is shown, so an
 * answer out of the cache does not set the clock back.
 */
export function clockOffset(serverNow: string, receivedAt: number): number {
  return Date.parse(serverNow) - receivedAt
}

/** A device more than two seconds off is told so, own setting: less is the way of an answer over the network. */
export function isWorthSaying(offset: number): boolean {
  return Math.abs(offset) > 2_000
}

export const ClockOffset = createContext(0)

/** The laboratory's time in ms, moving; right again at once when a sleeping tablet wakes. */
export function useLaboratoryNow(everyMs = 1_000): number {
  const offset = useContext(ClockOffset)
  const [at, setAt] = useState(() => Date.now())
  useEffect(() => {
    const tick = () => setAt(Date.now())
    const timer = setInterval(tick, everyMs)
    document.addEventListener('visibilitychange', tick)
    return () => {
      clearInterval(timer)
      document.removeEventListener('visibilitychange', tick)
    }
  }, [everyMs])
  return at + offset
}
