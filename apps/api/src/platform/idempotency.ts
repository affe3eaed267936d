import type { FastifyRequest } from 'fastify'
import type { Actor } from './actor.ts'
import { type Canonical, digestOf } from './canonical-json.ts'
import { isUniqueViolation } from './database-errors.ts'
import type { Laboratory, LaboratoryTransaction } from './laboratory.ts'
import { AppError } from './problem.ts'

export type Act<T> = {
  /** The header Idempotency-Key; without one the act simply runs. */
  key: string | undefined
  /** Which act: its action. */
  route: string
  input: unknown
  work: (tx: LaboratoryTransaction) => Promise<T>
}

/**
 * Runs an act that has no id of its own (assign many, plan) once for a key: the answer is kept in the same transaction, and
 * the same request again gets it again. Answers must be plain JSON.
 */
export async function runOnce<T>(laboratory: Laboratory, actor: Actor, act: Act<T>): Promise<T> {
  const { key } = act
  if (key === undefined) return laboratory.inLaboratory(actor, act.work)
  if (key.length < 8 || key.length > 200)
    throw new AppError('invalid-input', 'An Idempotency-Key has 8 to 200 characters.')
  const requestDig = new Uint8Array(
    digestOf(JSON.parse(JSON.stringify({ route: act.route, input: act.input })) as Canonical),
  )
  const where = { labId_actorId_key: { labId: actor.labId, actorId: actor.membershipId, key } }
  const attempt = () =>
    laboratory.inLaboratory(actor, async (tx) => {
      const kept = await tx.prisma.requestKey.findUnique({ where })
      if (kept) {
        if (!Buffer.from(kept.requestDig).equals(requestDig)) {
          throw new AppError(
            'conflict',
            'This Idempotency-Key belongs to another request. Use a new key for a new request.',
          )
        }
        return JSON.parse(kept.answer) as T
      }
      const outcome = await act.work(tx)
      await tx.prisma.requestKey.createMany({
        data: [
          {
            labId: actor.labId,
            actorId: actor.membershipId,
            key,
            route: act.route,
            requestDig,
            status: 200,
            answer: JSON.stringify(outcome ?? null),
            at: tx.at,
          },
        ],
      })
      return outcome
    })
  try {
    return await attempt()
  } catch (error) {
    // The same request at the same moment: the other one's answer is kept now.
    if (isUniqueViolation(error)) return await attempt()
    // Refused, by whatever rule, for what the other one changed while this one was looking: then its answer is kept too.
    if (!(error instanceof AppError)) throw error
    const kept = await laboratory.inLaboratory(actor, ({ prisma }) => prisma.requestKey.findUnique({ where }))
    if (kept === null) throw error
    return await attempt()
  }
}

/** The key that a device gave an act, so that its retry is the same act. */
export function idempotencyKeyOf({ headers }: FastifyRequest): string | undefined {
  return [headers['idempotency-key']].flat()[0]
}

/** The same, for acts that make something each time they run: without a key a retry would make it twice. */
export function requiredIdempotencyKey(request: FastifyRequest): string {
  const key = idempotencyKeyOf(request)
  if (key === undefined)
    throw new AppError(
      'invalid-input',
      'Send an Idempotency-Key: a fresh one for each act, the same one when you send it again.',
    )
  return key
}
