import type {
  EditSpecification,
  SpecificationHistory,
  WithdrawSpecification,
  WriteSpecification,
} from '@curebook/contract/own-specifications'
import type { Specification } from '@curebook/contract/specifications'
import {
  faultsOfKeptSources,
  faultsOfWritten,
  type WrittenFault,
} from '@curebook/trade/specification/own-specification'
import { asksTheSame, changesBetween } from '@curebook/trade/specification/specification-changes'
import type { Limit, Specification as TradeSpecification } from '@curebook/trade/specification/specification'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { lineOf } from './specification-lines.ts'
import { toRules } from './specifications.mapper.ts'
import {
  findLinesOf,
  findProject,
  findSpecification,
  findWithdrawal,
  insertSpecification,
  insertWithdrawal,
  lockLines,
  type SpecificationRow,
} from './specifications.repository.ts'

/** The key of what a laboratory wrote itself: a copy of nothing. */
const ownKey = 'own'

type Context = {
  readonly laboratory: Laboratory
  readonly readIn: (tx: LaboratoryTransaction, id: string) => Promise<Specification | null>
  readonly historyIn: (tx: LaboratoryTransaction, id: string) => Promise<SpecificationHistory>
}

/** A specification that copies none. */
export function writeSpecification({ laboratory, readIn }: Context, actor: Actor, input: WriteSpecification) {
  return createOnce(laboratory, actor, {
    subjectKind: 'specification',
    id: input.id,
    input,
    find: (tx) => readIn(tx, input.id),
    create: async (tx) => {
      refuseFaults(input)
      const { id, name, projectId } = input
      await refuseNoProject(tx, projectId)
      const limits = rulesOf(input, null)
      const revision = await insertSpecification(tx, { id, key: ownKey, name, limits, projectId })
      tx.record({
        action: 'specification:write',
        subjectKind: 'specification',
        subjectId: id,
        projectId,
        topics: topicsOfLine(projectId),
        content: { ...input, revision: String(revision) },
      })
      return (await readIn(tx, input.id))!
    },
  })
}

/**
 * The next version of a line, made from its newest: the one before stays, and what pins it keeps it.
 * @throws AppError `conflict` with both where somebody else's version stands on top of the one that was edited
 */
export function editSpecification(context: Context, actor: Actor, id: string, input: EditSpecification) {
  return createOnce(context.laboratory, actor, {
    subjectKind: 'specification',
    id: input.id,
    input: { from: id, ...input },
    find: (tx) => context.readIn(tx, input.id),
    create: async (tx) => {
      const before = await newestOf(context, tx, id, input)
      const rules = toRules(before)
      refuseFaults(input, before.key === ownKey ? [] : faultsOfKeptSources(rules, input.limits))
      const limits = rulesOf(input, rules)
      const changes = changesBetween(rules, limits)
      if (changes.length === 0)
        throw new AppError('refused-by-rule', 'Nothing is changed: a version that says the same is not made.')
      const { reason, ...content } = input
      const revision = await insertSpecification(tx, {
        id: input.id,
        key: before.key,
        name: input.name,
        limits,
        projectId: before.projectId,
        supersedesId: id,
        reason,
      })
      tx.record({
        action: 'specification:edit',
        subjectKind: 'specification',
        subjectId: input.id,
        projectId: before.projectId ?? undefined,
        topics: topicsOfLine(before.projectId),
        content: {
          ...content,
          reason,
          from: id,
          revision: String(revision),
          changes: changes.map((one) => ({ ...one })),
        },
      })
      return (await context.readIn(tx, input.id))!
    },
  })
}

/** The newest version of a line withdrawn, and the line with it. Designs that pin a version of it go on. */
export function withdrawSpecification(context: Context, actor: Actor, id: string, input: WithdrawSpecification) {
  return createOnce(context.laboratory, actor, {
    subjectKind: 'specification-withdrawal',
    id: input.id,
    input: { of: id, ...input },
    find: async (tx) => {
      const stored = await findWithdrawal(tx, input.id)
      return stored && context.historyIn(tx, stored.specificationId)
    },
    create: async (tx) => {
      const { projectId } = await newestOf(context, tx, id, input)
      await insertWithdrawal(tx, { ...input, specificationId: id })
      tx.record({
        action: 'specification:withdraw',
        subjectKind: 'specification-withdrawal',
        subjectId: input.id,
        projectId: projectId ?? undefined,
        topics: topicsOfLine(projectId),
        content: { specification: id, reason: input.reason },
      })
      return context.historyIn(tx, id)
    },
  })
}

/** The row, locked against others who edit or withdraw; refused unless it is the newest of a line that stands. */
async function newestOf(
  { readIn }: Context,
  tx: LaboratoryTransaction,
  id: string,
  sent: EditSpecification | WithdrawSpecification,
): Promise<SpecificationRow> {
  const found = await findSpecification(tx, id)
  if (!found) throw notFound('specification')
  await lockLines(tx, found.key)
  // Read again: whoever was at it may have been waited for.
  const last = lineOf(await findLinesOf(tx, found.key), id).at(-1)!
  const row = (await findSpecification(tx, last.id))!
  if (row.withdrawal)
    throw new AppError(
      'conflict',
      `${row.withdrawal.by.name} withdrew this specification: ${row.withdrawal.reason} Adopt or write another one.`,
      { extra: { stored: await readIn(tx, last.id), sent } },
    )
  if (last.id !== id) {
    const stored = (await readIn(tx, last.id))!
    throw new AppError(
      'conflict',
      `Version ${stored.version}, by ${stored.by?.name ?? 'the laboratory'}, stands in place of the one that you started from. Look at it and start from that one.`,
      { extra: { stored, sent } },
    )
  }
  return row
}

/** A contract's copy is told on its project too. */
export function topicsOfLine(projectId: string | null | undefined): string[] {
  return ['specifications', ...(projectId ? [`project:${projectId}`] : [])]
}

/** @throws AppError `invalid-input` where a contract's copy names a project that is not there */
export async function refuseNoProject(tx: LaboratoryTransaction, projectId: string | undefined): Promise<void> {
  if (projectId === undefined || (await findProject(tx, projectId))) return
  throw invalidField('projectId', 'There is no such project in this laboratory: choose one of the list.')
}

function refuseFaults(input: WriteSpecification, more: readonly WrittenFault[] = []): void {
  const errors = [...faultsOfWritten(input), ...more].map(({ path, sentence }) => ({ path, message: sentence }))
  if (errors.length > 0) throw new AppError('invalid-input', errors[0]!.message, { errors })
}

/** As the trade keeps it. What a form does not hold (figures printed elsewhere, the contract's change) stays while the limit does. */
function rulesOf(input: WriteSpecification, before: TradeSpecification | null): TradeSpecification {
  const { name, source, aggregateType, traffic, residualBand, gradationBand, limits } = input
  const keptBand = before?.residualBand
  const sameBand = keptBand?.from === residualBand.from && keptBand?.to === residualBand.to
  return {
    builtInKey: before?.builtInKey ?? ownKey,
    name,
    source,
    aggregateType,
    traffic,
    decisionRule: 'simple acceptance',
    residualBand: {
      ...residualBand,
      unit: '% of dry aggregate',
      changedFrom: sameBand ? (keptBand?.changedFrom ?? null) : null,
      changeReason: sameBand ? (keptBand?.changeReason ?? null) : null,
    },
    gradationBand,
    information: before?.information ?? [],
    limits: limits.map((limit): Limit => {
      const old = before?.limits.find(({ key }) => key === limit.key)
      const none = { usValue: null, usUnit: null, alsoPublished: [], changedFrom: null, changeReason: null }
      if (!old || !asksTheSame(old, { ...limit, ...none })) return { ...limit, ...none }
      const { usValue, usUnit, alsoPublished, changedFrom, changeReason } = old
      return { ...limit, usValue, usUnit, alsoPublished, changedFrom, changeReason }
    }),
  }
}
