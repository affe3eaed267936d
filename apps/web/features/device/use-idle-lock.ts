'use client'

import { useCallback, useEffect, useState } from 'react'
import { forgetLock, lockedAs } from '#lib/screen-lock.ts'
import { idleLeft, readLockMinutes } from './lock-setting.ts'

const actedAs = 'curebook-acted'
/** Often enough for another tab to see that this one is in use. */
const noteEveryMs = 5_000

/** Whether this person's screen is locked: after so long without a touch or a key, in every tab alike, over a reload too. */
export function useIdleLock(membershipId: string): { locked: boolean; unlock: () => void } {
  const [locked, setLocked] = useState(false)
  useEffect(() => {
    const look = () => setLocked(localStorage.getItem(lockedAs) === membershipId)
    look()
    let timer: ReturnType<typeof setTimeout>
    let noted = 0
    const act = () => {
      if (Date.now() - noted < noteEveryMs) return
      noted = Date.now()
      localStorage.setItem(actedAs, String(noted))
      arm()
    }
    const arm = (left = readLockMinutes(localStorage) * 60_000) => {
      clearTimeout(timer)
      timer = setTimeout(check, left)
    }
    const check = () => {
      const actedAt = Number(localStorage.getItem(actedAs) ?? 0)
      const left = idleLeft({ actedAt, now: Date.now(), minutes: readLockMinutes(localStorage) })
      if (left > 0) return arm(left)
      localStorage.setItem(lockedAs, membershipId)
      look()
    }
    // A tablet that slept measured no time: it is looked at when it wakes, before anything is touched.
    const wake = () => document.visibilityState === 'visible' && check()
    const touches = ['pointerdown', 'keydown', 'wheel'] as const
    act()
    for (const touch of touches) window.addEventListener(touch, act, { passive: true })
    window.addEventListener('storage', look)
    document.addEventListener('visibilitychange', wake)
    return () => {
      clearTimeout(timer)
      for (const touch of touches) window.removeEventListener(touch, act)
      window.removeEventListener('storage', look)
      document.removeEventListener('visibilitychange', wake)
    }
  }, [membershipId])
  const unlock = useCallback(() => {
    forgetLock()
    localStorage.setItem(actedAs, String(Date.now()))
    setLocked(false)
  }, [])
  return { locked, unlock }
}
