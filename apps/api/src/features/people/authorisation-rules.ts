import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { dayIn } from '#platform/laboratory-day'

/** Days before its end from which an authorisation is marked as ending; common practice, no source. */
export const endingWithinDays = 30

export type Span = { readonly fromDay: string; readonly untilDay: string | null }

/** Every activity that a person can be authorised for, in words. */
export function activitiesOf(methods: readonly MethodDeclaration[]): readonly { activity: string; label: string }[] {
  return [
    ...methods.map(({ key, name }) => ({ activity: `method:${key}`, label: name })),
    { activity: 'check', label: 'Check the work' },
    { activity: 'release', label: 'Release readings that wait' },
    { activity: 'approve', label: 'Approve' },
  ]
}

/** Where a span stands on a day. */
export function spanState({ fromDay, untilDay }: Span, today: string): 'later' | 'current' | 'ending' | 'ended' {
  if (fromDay > today) return 'later'
  if (untilDay === null) return 'current'
  if (untilDay < today) return 'ended'
  const soon = dayIn('UTC', new Date(Date.parse(`${today}T00:00:00Z`) + endingWithinDays * 86_400_000))
  return untilDay <= soon ? 'ending' : 'current'
}

/** Whether a day lies in a span, its first and last day included. */
export function holdsOn({ fromDay, untilDay }: Span, day: string): boolean {
  return fromDay <= day && (untilDay === null || day <= untilDay)
}

/**
 * Why somebody may not do an activity on a day, in a sentence; null when they may. A laboratory that has recorded no
 * authorisation for the activity leaves it to the roles; from the first one on it binds everybody.
 */
export function notAuthorised(
  who: string,
  activity: string,
  day: string,
  { binds, spans }: { binds: boolean; spans: readonly Span[] },
): string | null {
  if (!binds || spans.some((span) => holdsOn(span, day))) return null
  const past = spans
    .flatMap(({ fromDay, untilDay }) => (fromDay <= day && untilDay !== null ? [untilDay] : []))
    .toSorted()
    .at(-1)
  return past
    ? `${who} was authorised for “${activity}” until ${past} only, not on ${day}.`
    : `${who} was not authorised for “${activity}” on ${day}.`
}
