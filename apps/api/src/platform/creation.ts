import { type Canonical, digestOf } from './canonical-json.ts'
import type { Actor } from './actor.ts'
import { isUniqueViolation } from './database-errors.ts'
import type { Laboratory, LaboratoryTransaction } from './laboratory.ts'
import { AppError } from './problem.ts'

export type Creation<T> = {
  /** The entry's `subjectKind`, the noun in messages: `client`, `project`. */
  subjectKind: string
  id: string
  /** The request's body: the same body again is the same thing again. */
  input: unknown
  find: (tx: LaboratoryTransaction) => Promise<T | null>
  /** Inserts, and records an entry whose subject is `subjectKind` and `id`. */
  create: (tx: LaboratoryTransaction) => Promise<T>
}

export type Created<T> = { created: boolean; value: T }

/**
 * Runs a creation whose id its maker chose, so that a retry is the same thing: the same body again gives the stored thing
 * (`created` false, status 200), another body under the id is a conflict with both.
 */
export async function createOnce<T>(laboratory: Laboratory, actor: Actor, creation: Creation<T>): Promise<Created<T>> {
  const request = digestOf(JSON.parse(JSON.stringify(creation.input)) as Canonical).toString('hex')
  const attempt = () =>
    laboratory.inLaboratory(actor, async (tx): Promise<Created<T>> => {
      const stored = await creation.find(tx)
      if (stored !== null) {
        await compareWithFirst(tx, creation, request, stored)
        return { created: false, value: stored }
      }
      const record: typeof tx.record = (draft) =>
        tx.record(
          draft.subjectKind === creation.subjectKind && draft.subjectId === creation.id ? { ...draft, request } : draft,
        )
      return { created: true, value: await creation.create({ ...tx, record }) }
    })
  try {
    return await attempt()
  } catch (error) {
    // Two at once: the other one stands now, or a name is taken; the second look tells which.
    if (isUniqueViolation(error)) return attempt()
    // Refused, by whatever rule, for what the same request changed a moment ago, while this one was looking: then it stands,
    // and is the answer.
    if (!(error instanceof AppError)) throw error
    const stands = await laboratory.inLaboratory(actor, async (tx) => (await creation.find(tx)) !== null)
    if (!stands) throw error
    return attempt()
  }
}

async function compareWithFirst<T>(
  tx: LaboratoryTransaction,
  creation: Creation<T>,
  request: string,
  stored: T,
): Promise<void> {
  const first = await tx.prisma.ledgerEntry.findFirst({
    where: { labId: tx.actor.labId, subjectKind: creation.subjectKind, subjectId: creation.id },
    // What one transaction records of a subject may stand in one millisecond; the making is the first of it.
    orderBy: [{ writtenAt: 'asc' }, { id: 'asc' }],
    select: { content: true },
  })
  const before = first && (JSON.parse(first.content) as { request?: string }).request
  if (before === request) return
  throw new AppError(
    'conflict',
    `Another ${creation.subjectKind} stands under this id. Send the new one under an id of its own.`,
    {
      extra: { stored, sent: creation.input },
    },
  )
}
