import type { CreateEdition, Edition, Method, MethodExample } from '@curebook/contract/methods'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { workedExample } from '@curebook/trade/procedure/worked-example'
import { builtInReferenceCases } from '@curebook/trade/reference-cases/built-in'
import { type Actor, type AnyActor, systemActor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { laboratoryToday } from '#platform/laboratory-day'
import { AppError, invalidField, notFound } from '#platform/problem'
import { copyBuiltInEditions } from './built-in-editions.ts'
import { changedParameters, faultsOfChanges } from './edition-rules.ts'
import { type PinnedEdition, toEditions, toMethod, toPinned } from './methods.mapper.ts'
import { findEditions, insertEdition } from './methods.repository.ts'

export type { PinnedEdition }
export { digestOfEdition, type EditionFacts } from './methods.repository.ts'
export type MethodsService = ReturnType<typeof createMethodsService>

/** Test methods as shipped, and the editions of their bounds that a laboratory works by. */
export function createMethodsService({
  laboratory,
  methods,
}: {
  laboratory: Laboratory
  methods: readonly MethodDeclaration[]
}) {
  const methodOf = (key: string) => {
    const method = methodByKey(methods, key)
    if (!method) throw notFound('test method')
    return method
  }
  const editionsIn = async (tx: LaboratoryTransaction<AnyActor>, key: string) =>
    toEditions(await findEditions(tx, key), await laboratoryToday(tx))

  return {
    /** Every method by its key, as declared. */
    declarations: methods,

    /**
     * The edition that a test made now is pinned to.
     * @throws AppError `refused-by-rule` when no edition has taken effect
     */
    async editionInForceIn(tx: LaboratoryTransaction<AnyActor>, key: string): Promise<PinnedEdition> {
      const current = (await editionsIn(tx, methodOf(key).key)).find(({ inForce }) => inForce)
      if (!current)
        throw new AppError(
          'refused-by-rule',
          `No edition of “${methodOf(key).name}” has taken effect: make one under Methods.`,
        )
      return toPinned(current)
    },

    /** Brings the shipped editions into every laboratory: the server starts with newer ones now and then. */
    async copyBuiltInEverywhere(): Promise<void> {
      for (const labId of await laboratory.laboratoryIds())
        await laboratory.inLaboratory(systemActor(labId), (tx) => copyBuiltInEditions(tx, methods))
    },
    /** The same for the laboratory that is being made, in its transaction. */
    copyBuiltInIn: (tx: LaboratoryTransaction<AnyActor>) => copyBuiltInEditions(tx, methods),

    list: (actor: Actor) =>
      laboratory.inLaboratory(actor, async (tx): Promise<{ items: Method[]; next: null }> => {
        const [rows, today] = [await findEditions(tx), await laboratoryToday(tx)]
        const items = methods.map((method) =>
          toMethod(
            method,
            toEditions(
              rows.filter(({ methodKey }) => methodKey === method.key),
              today,
            ),
          ),
        )
        return { items, next: null }
      }),

    read: (actor: Actor, key: string) =>
      laboratory.inLaboratory(actor, async (tx) => toMethod(methodOf(key), await editionsIn(tx, key))),

    /** A reference case of the method, computed by this installation, with its working. */
    example: (key: string): MethodExample => {
      const example = workedExample(methodOf(key), builtInReferenceCases)
      return { example: example === undefined ? null : (structuredClone(example) as MethodExample['example']) }
    },

    /** A laboratory's own edition: earlier tests keep theirs, tests made from its day on are pinned to it. */
    createEdition: (actor: Actor, key: string, input: CreateEdition) =>
      createOnce(laboratory, actor, {
        subjectKind: 'edition',
        id: input.id,
        input: { key, ...input },
        find: async (tx) => (await editionsIn(tx, methodOf(key).key)).find(({ id }) => id === input.id) ?? null,
        create: async (tx): Promise<Edition> => {
          const editions = await editionsIn(tx, key)
          const copied = editions.find(({ id }) => id === input.copiedFrom)
          if (!copied)
            throw invalidField('copiedFrom', 'There is no such edition of this method: start from one of its list.')
          // Read again: the newer one may have come between the editions and what took their place.
          if (copied.superseded) throw takenFrom(copied, await editionsIn(tx, key), input)
          if (input.changes.length === 0 && copied.inForce)
            throw invalidField('changes', 'This edition is in force already: change at least one bound of it.')
          const errors = faultsOfChanges(methodOf(key), copied.parameters, input.changes)
          if (errors.length > 0) throw new AppError('invalid-input', errors[0]!.message, { errors })
          const edition = {
            id: input.id,
            methodKey: key,
            editionKey: copied.editionKey,
            revision:
              Math.max(
                ...editions
                  .filter(({ editionKey }) => editionKey === copied.editionKey)
                  .map(({ revision }) => revision),
              ) + 1,
            origin: 'laboratory' as const,
            copiedFromId: copied.id,
            designation: copied.designation,
            year: copied.year,
            parameters: changedParameters(copied.parameters, input.changes),
            effectiveFrom: input.effectiveFrom,
            supersedesId: copied.id,
            reason: input.reason,
          }
          await insertEdition(tx, edition)
          const { parameters: _, ...content } = edition
          tx.record({
            action: 'method:edit',
            subjectKind: 'edition',
            subjectId: input.id,
            topics: ['methods'],
            content: { ...content, revision: String(edition.revision), changes: input.changes },
          })
          return (await editionsIn(tx, key)).find(({ id }) => id === input.id)!
        },
      }),
  }
}

/** Somebody else's edition already stands on top of the one that was copied. */
function takenFrom(copied: Edition, editions: readonly Edition[], sent: CreateEdition): AppError {
  const stored = editions.find(
    ({ editionKey, revision }) => editionKey === copied.editionKey && revision > copied.revision,
  )
  const which = stored ? `Revision ${stored.revision}, from ${stored.effectiveFrom} on,` : 'A newer one'
  return new AppError('conflict', `${which} replaces the edition that you started from. Start from that one.`, {
    extra: { stored, sent },
  })
}
