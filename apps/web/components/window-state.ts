export type WindowPhase = 'pending' | 'open' | 'closing' | 'over'

/** Where a window stands at `now`; "closing" is its last quarter of an hour, or last tenth if that is shorter. */
export function windowPhase(now: number, opensAt: number | undefined, closesAt: number | undefined): WindowPhase {
  if (closesAt !== undefined && now > closesAt) return 'over'
  if (opensAt !== undefined && now < opensAt) return 'pending'
  if (closesAt === undefined) return 'open'
  const lead = opensAt === undefined ? 15 * 60_000 : Math.min(15 * 60_000, (closesAt - opensAt) / 10)
  return closesAt - now <= lead ? 'closing' : 'open'
}

/** Shares of the bar (0 to 1) at which the window opens, closes, and now is; the bar reaches an eighth beyond what it shows. */
export function windowShares(
  now: number,
  opensAt: number | undefined,
  closesAt: number | undefined,
): { readonly opens: number; readonly closes: number; readonly now: number } {
  const marks = [now, opensAt, closesAt].filter((mark) => mark !== undefined)
  const [low, high] = [Math.min(...marks), Math.max(...marks)]
  const margin = Math.max(1, (high - low) / 8)
  const share = (at: number) => (at - low + margin) / (high - low + 2 * margin)
  return {
    opens: opensAt === undefined ? 0 : share(opensAt),
    closes: closesAt === undefined ? 1 : share(closesAt),
    now: share(now),
  }
}
