import type { PutIn } from '@curebook/contract/put-in'
import { dayAfter } from '@curebook/trade/procedure/closed-days'
import { spansOn, type Span } from '@curebook/trade/procedure/free-time'
import { dayOf, instantAt } from '#lib/laboratory-time.ts'

/** Days after the one on which something is planned that a list may reach: it may go on over midnight. */
const reach = 2

/**
 * The laboratory's breaks on every day on which a list may plan something: from now, from the first put-in, when their soak
 * ends, and around each window of what lies in the bath.
 */
export function breaksOf(
  { breaks, soak, soaking, elsewhere }: Pick<PutIn, 'breaks' | 'soak' | 'soaking' | 'elsewhere'>,
  starts: readonly number[],
  zone: string,
): readonly Span[] {
  if (breaks.length === 0) return []
  const soakMs = (soak?.latestMinutes ?? 0) * 60_000
  const bases = [
    ...starts.flatMap((start) => [start, start + soakMs]),
    ...[...soaking, ...elsewhere].map(({ mayStartAt }) => Date.parse(mayStartAt)),
  ].map((at) => dayOf(new Date(at).toISOString(), zone))
  const days = new Set(
    bases.flatMap((day) => Array.from({ length: reach + 2 }, (_, index) => dayAfter(day, index - 1))),
  )
  const instantOf = (day: string, clock: string) => Date.parse(instantAt(day, clock, zone))
  return spansOn([...days].toSorted(), breaks, instantOf, (day) => dayAfter(day, 1))
}
