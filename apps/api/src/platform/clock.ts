/** The one clock of domain, ledger and jobs. Accounts and sessions keep real time. */
export type Clock = { now(): Date }

export type ControlledClock = Clock & {
  /** Puts the clock to an instant, ISO 8601 with offset. */
  set(instant: string): void
  advance(by: { milliseconds?: number; seconds?: number; minutes?: number; hours?: number; days?: number }): void
}

export function createSystemClock(): Clock {
  return { now: () => new Date() }
}

/** A clock that moves only when told, for tests, journeys and the demo. Starts at `start`, by default at the real time. */
export function createControlledClock(start?: string): ControlledClock {
  let current = start === undefined ? Date.now() : instantOf(start)
  return {
    now: () => new Date(current),
    set(instant) {
      current = instantOf(instant)
    },
    advance({ milliseconds = 0, seconds = 0, minutes = 0, hours = 0, days = 0 }) {
      current += milliseconds + 1000 * (seconds + 60 * (minutes + 60 * (hours + 24 * days)))
    },
  }
}

function instantOf(text: string): number {
  const instant = Date.parse(text)
  if (Number.isNaN(instant)) throw new RangeError(`Not an instant: ${text}. Right would be 2026-03-05T14:35:00Z`)
  return instant
}
