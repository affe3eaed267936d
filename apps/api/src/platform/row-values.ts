import type { PersonName } from '@curebook/contract/common'

/** What to select of a membership that is named beside what it did. */
export const personColumns = { id: true, name: true, initials: true } as const

/** A person as named beside what they did. */
export function personName({ id, name, initials }: { id: string; name: string; initials: string }): PersonName {
  return { membershipId: id, name, initials }
}

/** A calendar day (a DATE, midnight UTC in JavaScript) as `2026-03-05`. */
export function dayOf(date: Date): string {
  return date.toISOString().slice(0, 10)
}

/** A calendar day as a DATE takes it. */
export function dateOfDay(day: string): Date {
  return new Date(`${day}T00:00:00.000Z`)
}

/** All digits of a NUMERIC in plain notation, never with an exponent. */
export function digitsOf(value: { toFixed(): string }): string {
  return value.toFixed()
}
