/** Whose screen is locked on this device: a membership's id, kept over a reload. */
export const lockedAs = 'curebook-locked'
/** When this device was last touched, in ms; nothing = it is somebody's anew. */
export const touchedAs = 'curebook-acted'

/** Somebody proved who they are: the screen is open, and their time begins now. */
export function forgetLock(): void {
  // In this order: another tab that hears of the lock's end must not find the old touch and lock again.
  localStorage.removeItem(touchedAs)
  localStorage.removeItem(lockedAs)
}
