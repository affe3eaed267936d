import type { MadeWallCode, MakeWallCode, MakeWallScreen, WallScreen } from '@curebook/contract/wall'
import type { Actor } from '#platform/actor'
import { type Created, createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, notFound } from '#platform/problem'
import { newId } from '#platform/uuid'
import { newCode } from './wall-key.ts'
import { toWallScreen } from './wall-screens.mapper.ts'
import {
  findScreen,
  findScreenOfCode,
  insertCode,
  insertEnd,
  insertScreen,
  listScreens,
  lockScreen,
} from './wall-screens.repository.ts'

export type WallScreensService = ReturnType<typeof createWallScreensService>

/** How long a code can be typed: the walk from the desk to the wall. Common practice, no source. */
const codeMinutes = 10

/** Which browsers are wall screens: made, given a code, and ended by a manager. */
export function createWallScreensService({ laboratory }: { laboratory: Laboratory }) {
  return {
    list: (actor: Actor): Promise<WallScreen[]> =>
      laboratory.inLaboratory(actor, async (tx) => (await listScreens(tx)).map((row) => toWallScreen(row, tx.at))),

    /** Makes a screen with its first code, which is shown in this answer alone. */
    make(actor: Actor, input: MakeWallScreen): Promise<Created<MadeWallCode>> {
      const code = newCode()
      return createOnce<MadeWallCode>(laboratory, actor, {
        subjectKind: 'wall-screen',
        id: input.id,
        input,
        find: async (tx) => {
          const stored = await findScreen(tx, input.id)
          return stored && { screen: toWallScreen(stored, tx.at), code: null }
        },
        create: async (tx) => {
          await insertScreen(tx, input)
          const expiresAt = await giveCode(tx, { id: newId(), screenId: input.id, hash: code.hash })
          tx.record({
            action: 'wall-screen:create',
            subjectKind: 'wall-screen',
            subjectId: input.id,
            topics: ['wall-screens'],
            content: { name: input.name, codeUntil: expiresAt.toISOString() },
          })
          return { screen: await screenIn(tx, input.id), code: code.shown }
        },
      })
    },

    /** Another code for the same place: the one before holds no more; the browser that came by one stays until this is typed. */
    makeCode(actor: Actor, screenId: string, input: MakeWallCode): Promise<Created<MadeWallCode>> {
      const code = newCode()
      return createOnce<MadeWallCode>(laboratory, actor, {
        subjectKind: 'wall-code',
        id: input.id,
        input: { ...input, screenId },
        find: async (tx) => {
          const stored = await findScreenOfCode(tx, input.id)
          return stored === null ? null : { screen: await screenIn(tx, stored), code: null }
        },
        create: async (tx) => {
          await lockScreen(tx, screenId)
          const screen = await screenIn(tx, screenId)
          if (screen.state === 'ended')
            throw new AppError('wrong-state', `${screen.name} was ended. Make a new wall screen for that place.`)
          const expiresAt = await giveCode(tx, { id: input.id, screenId, hash: code.hash })
          tx.record({
            action: 'wall-screen:make-code',
            subjectKind: 'wall-code',
            subjectId: input.id,
            topics: ['wall-screens'],
            content: { screen: screenId, codeUntil: expiresAt.toISOString() },
          })
          return { screen: await screenIn(tx, screenId), code: code.shown }
        },
      })
    },

    /** Ends a screen; ended again it is what it was. The browser is told at its next look. */
    end: (actor: Actor, id: string): Promise<WallScreen> =>
      laboratory.inLaboratory(actor, async (tx) => {
        await lockScreen(tx, id)
        const before = await screenIn(tx, id)
        if (before.state === 'ended') return before
        await insertEnd(tx, id)
        tx.record({
          action: 'wall-screen:end',
          subjectKind: 'wall-screen',
          subjectId: id,
          topics: ['wall-screens'],
          content: { name: before.name },
        })
        return screenIn(tx, id)
      }),
  }
}

async function screenIn(tx: LaboratoryTransaction, id: string): Promise<WallScreen> {
  const found = await findScreen(tx, id)
  if (!found) throw notFound('wall screen')
  return toWallScreen(found, tx.at)
}

/** @returns until when it can be typed */
async function giveCode(
  tx: LaboratoryTransaction,
  code: { id: string; screenId: string; hash: Buffer },
): Promise<Date> {
  const expiresAt = new Date(tx.at.getTime() + codeMinutes * 60_000)
  await insertCode(tx, { ...code, expiresAt })
  return expiresAt
}
