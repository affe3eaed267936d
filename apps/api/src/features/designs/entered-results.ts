import type { EnteredResult, EnterResult } from '@curebook/contract/designs'
import { decimal } from '@curebook/trade/quantity/decimal'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import { ledgerContentOf } from '#platform/ledger-content'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { laboratoryToday } from '#platform/laboratory-day'
import { AppError, invalidField } from '#platform/problem'
import { dateOfDay } from '#platform/row-values'
import { type DesignContext, entryOf, lockedRevision } from './design-context.ts'
import { assertOpen } from './design-rules.ts'
import { toEntered } from './designs.mapper.ts'
import { findEntered, type ResultRow, type RevisionRow, updateRevision } from './designs.repository.ts'
import { writeMixComponents } from './mix-components.ts'

const words = {
  residue: { label: 'The residue', column: 'residueResultId' },
  'aggregate-moisture': { label: 'The aggregate moisture', column: 'moistureResultId' },
} as const

/** Enters residue or aggregate moisture on the newest revision. A further value names the one it replaces, and why. */
export function enterResult(context: DesignContext, actor: Actor, designId: string, input: EnterResult) {
  return createOnce(context.laboratory, actor, {
    subjectKind: 'result',
    id: input.id,
    input: { design: designId, ...input },
    find: async (tx) => {
      const stored = await findEntered(tx, input.id)
      return stored && toEntered(stored)
    },
    create: async (tx): Promise<EnteredResult> => {
      const revision = await lockedRevision(tx, designId)
      assertOpen(revision)
      const value = readShare(input)
      if (input.observedOn > (await laboratoryToday(tx)))
        throw invalidField('observedOn', 'A value is observed before it is entered: give today or an earlier day.')
      const replaced = replacedBy(revision, input)
      const row = rowOf(tx, revision, input, value, replaced)
      await tx.prisma.result.createMany({ data: [row] })
      await updateRevision(tx, revision.id, { [words[input.key].column]: input.id })
      tx.record({
        action: 'design:enter-result',
        subjectKind: 'result',
        subjectId: input.id,
        ...entryOf(revision),
        content: { design: designId, replaces: replaced?.id ?? null, reason: input.supersedes?.reason ?? null },
        rows: [ledgerContentOf('result', row)],
      })
      await writeMixComponents(context, tx, await lockedRevision(tx, designId))
      for (const tell of context.inputListeners) await tell(tx, revision.id)
      return toEntered((await findEntered(tx, input.id))!)
    },
  })
}

/** A share in per cent that can be: a residue above 0 up to 100, a moisture from 0 up. */
function readShare({ key, typed, unit }: EnterResult): string {
  const { label } = words[key]
  const read = readTypedNumber(typed, { unit, label })
  if (!read.ok) throw invalidField('typed', read.message)
  if (decimal(read.value).gt(100)) throw invalidField('typed', `${label} cannot be more than 100 %.`)
  if (key === 'residue' && decimal(read.value).isZero())
    throw invalidField('typed', 'An emulsion without residue gives no binder: the residue must be more than 0 %.')
  return read.value
}

/** The value that stands must be the one that is named, or none of both. */
function replacedBy(revision: RevisionRow, sent: EnterResult) {
  const row = sent.key === 'residue' ? revision.residueResult : revision.moistureResult
  if (row?.id === sent.supersedes?.id) return row
  const stored = row && toEntered(row)
  const sentence = stored
    ? `${words[sent.key].label} stands at ${stored.typed} ${stored.unit}, entered by ${stored.by.name} (${stored.source}). To replace it, name it and give the reason.`
    : `${words[sent.key].label} is not entered yet, so there is nothing to replace.`
  throw new AppError('conflict', sentence, { errors: [{ path: 'typed', message: sentence }], extra: { stored, sent } })
}

/** A chain stays within its revision: the first value of a new revision has its reason in the ledger. */
function rowOf(
  { actor, at }: LaboratoryTransaction,
  revision: RevisionRow,
  input: EnterResult,
  value: string,
  replaced: { id: string; designRevisionId: string | null } | null,
): ResultRow {
  const inChain = replaced?.designRevisionId === revision.id
  return {
    labId: actor.labId,
    id: input.id,
    level: 'revision',
    designRevisionId: revision.id,
    key: input.key,
    madeBy: input.madeBy ?? 'entered',
    madeByStated: input.madeBy === undefined ? null : true,
    valueText: input.typed,
    value,
    unit: input.unit,
    source: input.source,
    // The source names the laboratory, or the certificate it stands in.
    laboratoryName: input.madeBy === 'outside' ? input.source : null,
    observedOn: dateOfDay(input.observedOn),
    supersedesId: inChain ? replaced.id : null,
    reason: inChain ? input.supersedes?.reason : null,
    byId: actor.membershipId,
    at,
  }
}
