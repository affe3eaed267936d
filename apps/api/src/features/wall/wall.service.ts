import type { Wall } from '@curebook/contract/wall'
import type { Database } from '@curebook/database/open-database'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { systemActor } from '#platform/actor'
import type { AttemptLimits } from '#platform/attempt-limits'
import type { Origin } from '#platform/auth'
import { buildVersion } from '#platform/build'
import type { Laboratory, LaboratorySql } from '#platform/laboratory'
import { AppError } from '#platform/problem'
import { rowsSql } from '#platform/sql-rows'
import { wallOf } from './wall-content.ts'
import { touchSeen } from './wall-content.repository.ts'
import { cookieOf, hashOf, keyOf, newKey, plainCode } from './wall-key.ts'
import { findByCode, findByKey, findScreen, insertPairing, lockScreen } from './wall-screens.repository.ts'

export type WallService = ReturnType<typeof createWallService>

const refused = (code: 'not-found' | 'expired', message: string) =>
  new AppError(code, message, { errors: [{ path: 'code', message }] })

/** What a browser on the wall may do: become a screen by a code, and read the wall. It is nobody's session. */
export function createWallService({
  database,
  laboratory,
  limits,
  methods,
  publicUrl,
}: {
  database: Database
  laboratory: Laboratory
  limits: Pick<AttemptLimits, 'countAddress'>
  methods: readonly MethodDeclaration[]
  publicUrl: string | undefined
}) {
  const build = buildVersion()
  const secure = publicUrl?.startsWith('https:') ?? false

  return {
    /** Takes a code once. Attempts are counted for the address before the code is looked at. @returns the cookie with the key */
    async pair(code: string, { address }: Pick<Origin, 'address'>): Promise<{ name: string; cookie: string }> {
      await limits.countAddress(address)
      const holder = await findByCode(database, hashOf(plainCode(code)))
      if (!holder) throw refused('not-found', 'No wall screen waits for this code. Compare it sign by sign.')
      const key = newKey()
      // No row is written in anybody's name here: the code says who made it.
      return laboratory.inLaboratory(systemActor(holder.labId), async (tx) => {
        await lockScreen(tx, holder.screenId)
        const screen = (await findScreen(tx, holder.screenId))!
        const [last] = screen.wallCodes
        const wasUsed = screen.wallCodes.some(({ id, wallPairing }) => id === holder.codeId && wallPairing !== null)
        if (wasUsed)
          throw refused('expired', 'This code was typed before, and a code serves once. Ask a manager for a new one.')
        if (screen.wallEnd !== null || last?.id !== holder.codeId || last.expiresAt <= tx.at)
          throw refused('expired', 'This code no longer holds. Ask a manager for a new one.')
        await insertPairing(tx, holder.codeId, hashOf(key))
        tx.record({
          action: 'wall-screen:pair',
          subjectKind: 'wall-screen',
          subjectId: screen.id,
          topics: ['wall-screens'],
          content: { code: holder.codeId },
        })
        return { name: screen.name, cookie: cookieOf(key, secure) }
      })
    },

    /** What stands on the wall, and the cookie made to last or taken away; null where there was none. */
    async read(cookies: string | undefined): Promise<{ wall: Wall; cookie: string | null }> {
      const key = keyOf(cookies)
      if (key === undefined) return { wall: { state: 'unpaired' }, cookie: null }
      const holder = await findByKey(database, hashOf(key))
      if (!holder) return { wall: { state: 'unpaired' }, cookie: cookieOf(null, secure) }
      if (!holder.holds) return { wall: { state: 'ended', screen: holder.name }, cookie: cookieOf(null, secure) }
      const wall = await laboratory.inLaboratorySql(systemActor(holder.labId), async (raw) => {
        const sql = rowsSql(raw as unknown as LaboratorySql)
        await touchSeen(sql, holder.screenId)
        return wallOf(sql, methods, holder.name)
      })
      return { wall: { ...wall, build }, cookie: cookieOf(key, secure) }
    },
  }
}
