import type { EnterPanelResult, PanelResult } from '@curebook/contract/panel-results'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { isEntered, unitsFor } from '@curebook/trade/specification/enterable'
import type { Limit } from '@curebook/trade/specification/specification'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { laboratoryToday } from '#platform/laboratory-day'
import { ledgerContentOf } from '#platform/ledger-content'
import { AppError, invalidField } from '#platform/problem'
import { dateOfDay } from '#platform/row-values'
import { type DesignContext, entryOf, lockedRevision } from './design-context.ts'
import { assertNotApproved } from './design-rules.ts'
import { type ResultRow, type RevisionRow, updateRevision } from './designs.repository.ts'
import { toPanelResult } from './panel-results.mapper.ts'
import { findPanelResult, findPanelResults, type PanelResultRow } from './panel-results.repository.ts'

/**
 * Enters a result of the panel that no method here computes, on the newest revision. A further value for the property
 * names the one it replaces, and why; within a revision they are a chain.
 */
export function enterPanelResult(context: DesignContext, actor: Actor, designId: string, input: EnterPanelResult) {
  return createOnce(context.laboratory, actor, {
    subjectKind: 'result',
    id: input.id,
    input: { design: designId, ...input },
    find: async (tx) => {
      const stored = await findPanelResult(tx, input.id)
      return stored && toPanelResult(stored)
    },
    create: async (tx): Promise<PanelResult> => {
      const revision = await lockedRevision(tx, designId)
      assertNotApproved(revision)
      const limit = await enterableLimit(context, tx, revision, input.limitKey)
      const value = readValue(input, limit)
      if (input.observedOn > (await laboratoryToday(tx)))
        throw invalidField('observedOn', 'A value is observed before it is entered: give today or an earlier day.')
      if (input.attachmentId !== null) await context.attachments.assertIn(tx, input.attachmentId, 'attachmentId')
      const replaced = await replacedBy(tx, revision, input, limit)
      const row = rowOf(tx, revision, input, value, replaced)
      await tx.prisma.result.createMany({ data: [row] })
      // Whoever edits the design from what stood before is told that it changed.
      await updateRevision(tx, revision.id, {})
      tx.record({
        action: 'design:enter-result',
        subjectKind: 'result',
        subjectId: input.id,
        ...entryOf(revision),
        content: { design: designId, replaces: replaced?.id ?? null, reason: input.supersedes?.reason ?? null },
        rows: [ledgerContentOf('result', row)],
      })
      return toPanelResult((await findPanelResult(tx, input.id))!)
    },
  })
}

/** What stands entered for a revision. */
export async function panelResultsOf(
  tx: LaboratoryTransaction,
  designId: string,
  upTo: number,
): Promise<PanelResult[]> {
  return (await findPanelResults(tx, designId, upTo)).map(toPanelResult)
}

async function enterableLimit(
  { methods, specifications }: DesignContext,
  tx: LaboratoryTransaction,
  { specificationId }: RevisionRow,
  key: string,
): Promise<Limit> {
  const rules = specificationId === null ? null : await specifications.rulesIn(tx, specificationId)
  const limit = rules?.limits.find((one) => one.key === key)
  if (!limit)
    throw invalidField(
      'limitKey',
      'The specification of this design asks for no such property: choose one of its panel.',
    )
  if (limit.property === 'residue')
    throw new AppError(
      'refused-by-rule',
      `${limit.label} stands with the design, and contents are computed from it: enter it there as the residue of the emulsion.`,
    )
  if (!isEntered(limit, methods.declarations))
    throw new AppError(
      'refused-by-rule',
      `${limit.label} is computed here from readings: plan its test in the series instead of entering a value.`,
    )
  return limit
}

/** The number as typed, in the unit chosen; that unit must be the limit's or convert into it. */
function readValue({ typed, unit }: EnterPanelResult, limit: Limit): string {
  const may = unitsFor(limit.unit)
  if (!may.includes(unit))
    throw invalidField(
      'unit',
      `The limit stands in ${limit.unit}, and a value in ${unit} does not convert into it: give it in ${may.join(' or ')}.`,
    )
  const read = readTypedNumber(typed, { unit, label: limit.label })
  if (!read.ok) throw invalidField('typed', read.message)
  return read.value
}

/** The value that stands must be the one that is named, or none of both. */
async function replacedBy(
  tx: LaboratoryTransaction,
  revision: RevisionRow,
  sent: EnterPanelResult,
  limit: Limit,
): Promise<PanelResultRow | undefined> {
  const row = (await findPanelResults(tx, revision.designId, revision.number)).find(({ key }) => key === limit.key)
  if (row?.id === sent.supersedes?.id) return row
  const stored = row && toPanelResult(row)
  const sentence = stored
    ? `${limit.label} stands at ${stored.typed} ${stored.unit}, entered by ${stored.by.name}. To replace it, name it and give the reason.`
    : `${limit.label} is not entered yet, so there is nothing to replace.`
  throw new AppError('conflict', sentence, {
    errors: [{ path: 'typed', message: sentence }],
    extra: { stored: stored ?? null, sent },
  })
}

const sources = { entered: 'Own test by hand', outside: 'Another laboratory', customer: 'Given by the client' } as const

/** A chain stays within its revision: the first value of a new revision has its reason in the ledger. */
function rowOf(
  { actor, at }: LaboratoryTransaction,
  revision: RevisionRow,
  input: EnterPanelResult,
  value: string,
  replaced: PanelResultRow | undefined,
): ResultRow {
  const inChain = replaced?.designRevisionId === revision.id
  const orNull = (text: string) => (text === '' ? null : text)
  return {
    labId: actor.labId,
    id: input.id,
    level: 'revision',
    designRevisionId: revision.id,
    key: input.limitKey,
    madeBy: input.madeBy,
    madeByStated: true,
    valueText: input.typed,
    value,
    unit: input.unit,
    source: input.source === '' ? sources[input.madeBy] : input.source,
    methodName: input.method,
    methodEdition: orNull(input.edition),
    instrumentName: orNull(input.instrument),
    laboratoryName: orNull(input.laboratoryName),
    observedBy: orNull(input.observedBy),
    observedOn: dateOfDay(input.observedOn),
    atContent: input.atEmulsionPercent,
    remark: orNull(input.remark),
    attachmentId: input.attachmentId,
    supersedesId: inChain ? replaced.id : null,
    reason: inChain ? input.supersedes?.reason : null,
    byId: actor.membershipId,
    at,
  }
}
