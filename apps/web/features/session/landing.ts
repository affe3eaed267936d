import type { Session } from '@curebook/contract/session'
import { firstScreenOf } from '#lib/screens.ts'

/**
 * Where a signed-in person goes: to the address they came for, else to the first screen of their role in their only
 * laboratory, else to choose one.
 */
export function landingOf({ memberships }: Pick<Session, 'memberships'>, wanted?: string | null): string {
  if (isOwnAddress(wanted)) return wanted
  const [only] = memberships
  if (only === undefined || memberships.length > 1) return '/choose-laboratory'
  return firstScreenAddress(only)
}

export function firstScreenAddress({
  shortName,
  roles,
}: Pick<Session['memberships'][number], 'shortName' | 'roles'>): string {
  return `/l/${shortName}/${firstScreenOf(roles[0] ?? 'auditor')}`
}

/** Only pages of this site: an address handed in from outside must not send a person away. */
export function isOwnAddress(address: string | null | undefined): address is string {
  return typeof address === 'string' && /^\/(l\/[^\\]+|choose-laboratory|invitation)$/.test(address)
}
