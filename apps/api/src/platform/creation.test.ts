import type { ErrorCode } from '@curebook/contract/problem'
import { expect, it } from 'vitest'
import type { Actor } from './actor.ts'
import { digestOf } from './canonical-json.ts'
import { createOnce } from './creation.ts'
import type { Laboratory } from './laboratory.ts'
import { AppError, invalidField } from './problem.ts'

const actor = { labId: 'lab', membershipId: 'one' } as unknown as Actor
/** A laboratory whose ledger holds the request of one body. */
const laboratoryWith = (body: { readonly name: string }) => {
  const content = JSON.stringify({ request: digestOf(body).toString('hex') })
  const tx = { actor, prisma: { ledgerEntry: { findFirst: async () => ({ content }) } }, record: () => undefined }
  return { inLaboratory: async (_: Actor, work: (given: unknown) => unknown) => work(tx) } as unknown as Laboratory
}
const refusal = (code: ErrorCode = 'conflict') => new AppError(code, 'A newer one replaces it.')
/** Found from the second look on: the other request has come in between. */
const meanwhile = <T>(value: T) => {
  let looks = 0
  return async () => ((looks += 1) > 1 ? value : null)
}
const creation = (
  input: { readonly name: string },
  find: () => Promise<{ readonly name: string } | null>,
  error: Error = refusal(),
) => ({
  ...{ subjectKind: 'edition', id: 'e', input, find },
  create: async () => {
    throw error
  },
})

it.each([
  refusal(),
  refusal('changed-meanwhile'),
  refusal('wrong-state'),
  refusal('refused-by-rule'),
  invalidField('day', 'This day stands already.'),
])('a request refused ($code) for what its twin changed a moment ago is answered with what stands', async (error) => {
  const body = { name: 'first' }
  const once = createOnce(laboratoryWith(body), actor, creation(body, meanwhile(body), error))
  expect(await once).toEqual({ created: false, value: body })
})

it('what is no refusal is thrown as it is, without a second look', async () => {
  let looks = 0
  const find = async () => {
    looks += 1
    return null
  }
  const broken = createOnce(laboratoryWith({ name: 'a' }), actor, creation({ name: 'a' }, find, new Error('lost')))
  await expect(broken).rejects.toThrow('lost')
  expect(looks).toBe(1)
})

it('another body under the id is told of both', async () => {
  const other = createOnce(
    laboratoryWith({ name: 'first' }),
    actor,
    creation({ name: 'other' }, meanwhile({ name: 'first' })),
  )
  await expect(other).rejects.toMatchObject({ extra: { stored: { name: 'first' }, sent: { name: 'other' } } })
})

it('a refusal stands where nothing came in between', async () => {
  const refused = createOnce(
    laboratoryWith({ name: 'a' }),
    actor,
    creation({ name: 'a' }, async () => null),
  )
  await expect(refused).rejects.toThrow('A newer one replaces it.')
})
