import { vi } from 'vitest'
import type { ControlledClock } from '../../../apps/api/src/platform/clock.ts'

export type Clocks = ReturnType<typeof createClocks>

/** True time, which is the server's, and a device's clock that is `aheadMs` ahead of it. */
export function createClocks(server: ControlledClock, aheadMs: number) {
  let ahead = aheadMs
  return {
    trueNow: () => server.now().getTime(),
    ahead: () => ahead,
    deviceNow: () => new Date(server.now().getTime() + ahead),
    put(aheadNowMs: number) {
      ahead = aheadNowMs
    },
    pass: (milliseconds: number) => server.advance({ milliseconds }),
  }
}

/**
 * Runs code of the pages that asks `new Date()` with the device's clock. Only until it first waits: the server in this process
 * goes by the real one.
 */
export function byDeviceClock<T>(clocks: Clocks, work: () => T): T {
  vi.setSystemTime(clocks.deviceNow())
  try {
    return work()
  } finally {
    vi.useRealTimers()
  }
}
