/** After how many minutes without a touch a device locks; 10 unless it is set otherwise. Common practice, no source. */
export const lockMinutes = [2, 5, 10, 20, 60] as const
const storedAs = 'curebook-lock-minutes'
const usual = 10

/** This device's own setting. */
export function readLockMinutes(storage: Pick<Storage, 'getItem'>): number {
  const stored = Number(storage.getItem(storedAs))
  return (lockMinutes as readonly number[]).includes(stored) ? stored : usual
}
export function writeLockMinutes(storage: Pick<Storage, 'setItem'>, minutes: number): void {
  storage.setItem(storedAs, String(minutes))
}

/** What is left until the lock, in ms; nothing or less = lock now. Another tab in use counts as this one. */
export function idleLeft({ actedAt, now, minutes }: { actedAt: number; now: number; minutes: number }): number {
  return actedAt + minutes * 60_000 - now
}
