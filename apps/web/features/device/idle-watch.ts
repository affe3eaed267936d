import { lockedAs, touchedAs } from '#lib/screen-lock.ts'
import { idleLeft, readLockMinutes } from './lock-setting.ts'

/** Often enough for another tab to see that this one is in use. */
const noteEveryMs = 5_000

type Kept = Pick<Storage, 'getItem' | 'setItem'>
export type IdleWatch = {
  /** Somebody touched the screen. */
  readonly touch: () => void
  /** Looks how long nobody did: when the page opens, a timer has run, or a tablet wakes. */
  readonly check: () => void
  readonly stop: () => void
}

/**
 * Locks a person's screen after so long without a touch in any tab. It goes by when the last touch was noted and not by a
 * timer alone: a tab that was closed, discarded or asleep ran none. Hence every touch is compared before it is noted.
 */
export function watchIdle({
  storage,
  membershipId,
  now,
  onLock,
}: {
  readonly storage: Kept
  readonly membershipId: string
  readonly now: () => number
  readonly onLock: () => void
}): IdleWatch {
  let timer: ReturnType<typeof setTimeout> | undefined
  let noted: number | undefined
  const arm = (left: number) => {
    clearTimeout(timer)
    timer = setTimeout(check, left)
  }
  const note = () => {
    noted = now()
    storage.setItem(touchedAs, String(noted))
    arm(readLockMinutes(storage) * 60_000)
  }
  /** @returns whether the screen is open still */
  const look = (): boolean => {
    const kept = storage.getItem(touchedAs)
    // Nothing noted: somebody has just signed in or unlocked.
    if (kept === null) {
      note()
      return true
    }
    const left = idleLeft({ actedAt: Number(kept), now: now(), minutes: readLockMinutes(storage) })
    if (left > 0) arm(left)
    else {
      clearTimeout(timer)
      storage.setItem(lockedAs, membershipId)
      onLock()
    }
    return left > 0
  }
  const check = () => void look()
  return {
    check,
    touch: () => {
      if (noted !== undefined && Math.abs(now() - noted) < noteEveryMs) return
      if (look()) note()
    },
    stop: () => clearTimeout(timer),
  }
}
