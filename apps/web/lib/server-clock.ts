/** What the server's clock is ahead of this device's, in ms: of the last answer that told the time. */
const clock = { ahead: 0 }

/** Takes the server's time from an answer's `Date`, which tells whole seconds. */
export function noteServerTime(date: string | null, receivedAt: number = Date.now()): void {
  const told = Date.parse(date ?? '')
  if (!Number.isNaN(told)) clock.ahead = told - receivedAt
}

/** Now by the server's clock, within a second or two, whatever this device's clock says; an instant. */
export function serverNow(deviceNow: number = Date.now()): string {
  return new Date(deviceNow + clock.ahead).toISOString()
}
