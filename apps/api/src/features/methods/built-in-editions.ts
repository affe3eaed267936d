import type { BuiltInEdition, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { AnyActor } from '#platform/actor'
import { canonicalJson } from '#platform/canonical-json'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { newId } from '#platform/uuid'
import { type EditionRow, findEditions, insertEdition } from './methods.repository.ts'

/**
 * Copies the shipped editions that the laboratory does not hold yet. One that reads otherwise than the copy held comes in
 * as a further revision; nothing that tests are pinned to is touched. Two servers starting at once copy it once.
 */
export async function copyBuiltInEditions(
  tx: LaboratoryTransaction<AnyActor>,
  methods: readonly MethodDeclaration[],
): Promise<void> {
  const held = await findEditions(tx)
  for (const method of methods) {
    for (const edition of method.editions) {
      const ofKey = held.filter(({ methodKey, editionKey }) => methodKey === method.key && editionKey === edition.key)
      const newest = ofKey.filter(({ origin }) => origin === 'built-in').at(-1)
      if (newest && readsTheSame(newest, edition)) continue
      await copy(tx, method.key, edition, Math.max(0, ...ofKey.map(({ revision }) => revision)) + 1)
    }
  }
}

async function copy(tx: LaboratoryTransaction<AnyActor>, methodKey: string, edition: BuiltInEdition, revision: number) {
  const id = newId()
  const { key: editionKey, designation, year, effectiveFrom, parameters } = edition
  const row = { id, methodKey, editionKey, revision, designation, year, effectiveFrom }
  const copied = {
    ...row,
    parameters,
    origin: 'built-in',
    copiedFromId: null,
    supersedesId: null,
    reason: null,
  } as const
  if (!(await insertEdition(tx, copied, { unlessThere: true }))) return
  tx.record({
    action: 'method:copy-built-in',
    subjectKind: 'edition',
    subjectId: id,
    topics: ['methods'],
    content: { ...row, revision: String(revision) },
  })
}

function readsTheSame(row: EditionRow, { designation, year, effectiveFrom, parameters }: BuiltInEdition): boolean {
  return (
    row.designation === designation &&
    row.year === year &&
    row.effectiveFrom.toISOString().startsWith(effectiveFrom) &&
    row.parameters === canonicalJson(parameters)
  )
}
