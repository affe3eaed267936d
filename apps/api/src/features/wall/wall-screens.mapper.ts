import type { WallScreen } from '@curebook/contract/wall'
import { personName } from '#platform/row-values'
import type { ScreenRow } from './wall-screens.repository.ts'

/** A screen as it stands at a time: by its end, its pairings, and the code that was made last. */
export function toWallScreen(row: ScreenRow, now: Date): WallScreen {
  const [code] = row.wallCodes
  const pairedAt = row.wallCodes.find(({ wallPairing }) => wallPairing !== null)?.wallPairing?.at ?? null
  const isOpen = row.wallEnd === null && code !== undefined && code.wallPairing === null && code.expiresAt > now
  return {
    id: row.id,
    name: row.name,
    by: personName(row.by),
    at: row.at.toISOString(),
    state: row.wallEnd !== null ? 'ended' : pairedAt === null ? 'waiting' : 'paired',
    codeUntil: isOpen ? code.expiresAt.toISOString() : null,
    pairedAt: pairedAt?.toISOString() ?? null,
    seenAt: row.wallSeen?.seenAt.toISOString() ?? null,
    ended: row.wallEnd && { at: row.wallEnd.at.toISOString(), by: personName(row.wallEnd.by) },
  }
}
