/** Whose screen is locked on this device: a membership's id, kept over a reload. */
export const lockedAs = 'curebook-locked'

export function forgetLock(): void {
  localStorage.removeItem(lockedAs)
}
