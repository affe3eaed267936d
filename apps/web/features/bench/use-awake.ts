'use client'

import { useEffect, useState } from 'react'

/** Keeps the screen on while it is wanted, where the device can; asked for again when the page is looked at again. */
export function useAwake(wanted: boolean): void {
  const [seen, setSeen] = useState(0)
  useEffect(() => {
    const look = () => setSeen((before) => before + 1)
    document.addEventListener('visibilitychange', look)
    return () => document.removeEventListener('visibilitychange', look)
  }, [])
  useEffect(() => {
    if (!wanted || document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return undefined
    const lock = navigator.wakeLock.request('screen').catch(() => undefined)
    return () => void lock.then((held) => held?.release())
  }, [wanted, seen])
}
