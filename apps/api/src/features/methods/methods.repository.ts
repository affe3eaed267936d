import type { Prisma } from '@curebook/database/client'
import type { EditionParameters } from '@curebook/trade/procedure/declaration'
import type { AnyActor } from '#platform/actor'
import { canonicalJson, sha256 } from '#platform/canonical-json'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { dateOfDay } from '#platform/row-values'

export type EditionRow = Prisma.MethodEditionGetPayload<{ include: { supersededBy: { select: { id: true } } } }>

export type NewEdition = {
  id: string
  methodKey: string
  editionKey: string
  revision: number
  origin: 'built-in' | 'laboratory'
  copiedFromId: string | null
  designation: string
  year: string
  parameters: EditionParameters
  effectiveFrom: string
  supersedesId: string | null
  reason: string | null
}

/** What an edition's digest is of. */
export type EditionFacts = Pick<
  NewEdition,
  'methodKey' | 'editionKey' | 'revision' | 'designation' | 'year' | 'parameters'
>

/** Editions of the laboratory, of one method or of all, oldest first. */
export function findEditions(
  { prisma, actor }: LaboratoryTransaction<AnyActor>,
  methodKey?: string,
): Promise<EditionRow[]> {
  return prisma.methodEdition.findMany({
    where: { labId: actor.labId, methodKey },
    include: { supersededBy: { select: { id: true } } },
    orderBy: [{ methodKey: 'asc' }, { revision: 'asc' }, { editionKey: 'asc' }],
  })
}

/**
 * Inserts an edition. With `unlessThere` it answers false where one of this key and revision came first; without, a second
 * one on top of the same edition fails as a unique violation.
 */
export async function insertEdition(
  { prisma, actor, at }: LaboratoryTransaction<AnyActor>,
  edition: NewEdition,
  { unlessThere = false }: { unlessThere?: boolean } = {},
): Promise<boolean> {
  const { parameters, effectiveFrom, ...rest } = edition
  const { count } = await prisma.methodEdition.createMany({
    data: [
      {
        ...rest,
        labId: actor.labId,
        parameters: canonicalJson(parameters),
        dig: new Uint8Array(digestOfEdition(edition)),
        effectiveFrom: dateOfDay(effectiveFrom),
        byId: actor.kind === 'person' && edition.origin === 'laboratory' ? actor.membershipId : null,
        at,
      },
    ],
    skipDuplicates: unlessThere,
  })
  return count === 1
}

/** An edition by its name and every one of its parameters: results name it beside the edition's id. */
export function digestOfEdition({
  methodKey,
  editionKey,
  revision,
  designation,
  year,
  parameters,
}: EditionFacts): Buffer {
  return sha256(
    canonicalJson({
      method: methodKey,
      edition: editionKey,
      revision: String(revision),
      designation,
      year,
      parameters,
    }),
  )
}
