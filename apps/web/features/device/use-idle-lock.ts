'use client'

import { useCallback, useEffect, useRef, useState } from 'react'
import { forgetLock, lockedAs } from '#lib/screen-lock.ts'
import { watchIdle, type IdleWatch } from './idle-watch.ts'

/** Whether this person's screen is locked: after so long without a touch or a key, in every tab alike, over a reload too. */
export function useIdleLock(membershipId: string): { locked: boolean; unlock: () => void } {
  const [locked, setLocked] = useState(false)
  const watching = useRef<IdleWatch>(undefined)
  useEffect(() => {
    const look = () => setLocked(localStorage.getItem(lockedAs) === membershipId)
    const watch = watchIdle({ storage: localStorage, membershipId, now: () => Date.now(), onLock: look })
    watching.current = watch
    // A tablet that slept measured no time: it is looked at when it wakes, before anything is touched.
    const wake = () => document.visibilityState === 'visible' && watch.check()
    const touches = ['pointerdown', 'keydown', 'wheel'] as const
    // Another tab was touched, locked or unlocked.
    const hear = () => {
      watch.check()
      look()
    }
    hear()
    for (const touch of touches) window.addEventListener(touch, watch.touch, { passive: true })
    window.addEventListener('storage', hear)
    document.addEventListener('visibilitychange', wake)
    return () => {
      watch.stop()
      for (const touch of touches) window.removeEventListener(touch, watch.touch)
      window.removeEventListener('storage', hear)
      document.removeEventListener('visibilitychange', wake)
    }
  }, [membershipId])
  const unlock = useCallback(() => {
    forgetLock()
    watching.current?.check()
    setLocked(false)
  }, [])
  return { locked, unlock }
}
