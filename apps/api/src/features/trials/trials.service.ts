import type { EnterTrialCup, TrialCup, TrialCups, UseAsBase } from '@curebook/contract/trials'
import { limitWords } from '@curebook/trade/specification/judge'
import type { Limit } from '@curebook/trade/specification/specification'
import type { DesignsService } from '#features/designs/designs.service'
import { decimalSignIn } from '#features/range/range.service'
import type { SpecificationsService } from '#features/specifications/specifications.service'
import type { Actor } from '#platform/actor'
import { type Canonical, canonicalJson } from '#platform/canonical-json'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { ledgerContentOf } from '#platform/ledger-content'
import { AppError, invalidField } from '#platform/problem'
import { changesWhatWasRead, type CupValues, readCup } from './cup-values.ts'
import { toBase, toCup } from './trials.mapper.ts'
import {
  type CupRow,
  findBase,
  findCup,
  findCups,
  findLastBase,
  insertBase,
  insertCup,
  type NewCupRow,
} from './trials.repository.ts'

export type TrialsService = ReturnType<typeof createTrialsService>
type Deps = { laboratory: Laboratory; designs: DesignsService; specifications: SpecificationsService }

/** Trial-mix cups of a design, and the one that the series is mixed after. */
export function createTrialsService({ laboratory, designs, specifications }: Deps) {
  async function limitIn(tx: LaboratoryTransaction, designId: string): Promise<Limit | undefined> {
    const { specification } = await designs.readIn(tx, designId)
    const rules = await specifications.rulesIn(tx, specification.id)
    return rules?.limits.find(({ property }) => property === 'mix-time')
  }

  const list = (actor: Actor, designId: string, number?: number): Promise<TrialCups> =>
    laboratory.inLaboratory(actor, async (tx) => {
      const { revision } = await designs.readIn(tx, designId, number)
      const limit = await limitIn(tx, designId)
      const sign = await decimalSignIn(tx)
      const base = await findLastBase(tx, designId, revision)
      return {
        cups: (await findCups(tx, designId, revision)).map((row) => toCup(row, limit, sign)),
        mixTimeLimit:
          limit && limit.value !== null
            ? {
                words: [limitWords(limit, sign), limit.condition].filter(Boolean).join(', '),
                value: limit.value,
                unit: limit.unit,
              }
            : null,
        base: base && toBase(base),
        sharesStand: await designs.sharesStandIn(tx, designId),
      }
    })

  const enter = (actor: Actor, designId: string, input: EnterTrialCup) => {
    const viewOf = async (tx: LaboratoryTransaction, row: CupRow): Promise<TrialCup> =>
      toCup(row, await limitIn(tx, designId), await decimalSignIn(tx))
    return createOnce(laboratory, actor, {
      subjectKind: 'trial-cup',
      id: input.id,
      input: { design: designId, ...input },
      find: async (tx) => {
        const row = await findCup(tx, input.id)
        return row && viewOf(tx, row)
      },
      create: async (tx): Promise<TrialCup> => {
        const open = await designs.lockOpenIn(tx, designId)
        const values = readCup(input)
        const cups = await findCups(tx, designId, open.number)
        const replaced = replacedBy(cups, input, open)
        const row = rowOf(tx, input, values, {
          designRevisionId: open.revisionId,
          number: replaced?.number ?? Math.max(0, ...cups.map(({ number }) => number)) + 1,
          reason: replaced ? reasonOf(replaced, values, input) : null,
        })
        await insertCup(tx, row)
        tx.record({
          action: 'trial-cup:create',
          subjectKind: 'trial-cup',
          subjectId: input.id,
          ...open.entry,
          content: { design: designId, replaces: replaced?.id ?? null, reason: row.reason ?? null },
          rows: [ledgerContentOf('trial_cup', row)],
        })
        return viewOf(tx, (await findCup(tx, input.id))!)
      },
    })
  }

  /** Chooses the cup, and gives the planned contents their shares in the same transaction. */
  const useAsBase = (actor: Actor, designId: string, input: UseAsBase) =>
    createOnce(laboratory, actor, {
      subjectKind: 'trial-base',
      id: input.id,
      input: { design: designId, ...input },
      find: async (tx) => {
        const row = await findBase(tx, input.id)
        return row && toBase(row)
      },
      create: async (tx) => {
        const open = await designs.lockOpenIn(tx, designId)
        const cup = (await findCups(tx, designId, open.number)).find(({ id }) => id === input.cupId)
        if (!cup)
          throw invalidField(
            'cupId',
            'There is no such cup of this design, or it was corrected: look at the list again.',
          )
        const before = open.mixes
        await designs.setSharesIn(tx, designId, input.contents)
        await insertBase(tx, {
          id: input.id,
          designRevisionId: open.revisionId,
          trialCupId: cup.id,
          contents: canonicalJson(input.contents as unknown as Canonical),
        })
        tx.record({
          action: 'trial-cup:use',
          subjectKind: 'trial-base',
          subjectId: input.id,
          ...open.entry,
          content: {
            design: designId,
            cup: cup.id,
            before: before as unknown as Canonical,
            after: input.contents as unknown as Canonical,
          },
        })
        return toBase((await findBase(tx, input.id))!)
      },
    })

  return { list, enter, useAsBase }
}

/** The cup that is named must stand, in the revision that is open. */
function replacedBy(
  cups: readonly CupRow[],
  { supersedes }: EnterTrialCup,
  open: { revisionId: string },
): CupRow | undefined {
  if (!supersedes) return undefined
  const cup = cups.find(({ id }) => id === supersedes.id)
  if (!cup)
    throw new AppError(
      'conflict',
      'This cup was corrected meanwhile, or is not of this design: look at the list again.',
    )
  if (cup.designRevisionId !== open.revisionId)
    throw new AppError('wrong-state', `Cup ${cup.number} belongs to an earlier revision and stands: mix another one.`)
  return cup
}

/** Completing what was not read yet needs no reason; changing what was read does. */
function reasonOf(
  before: CupRow,
  values: CupValues,
  { supersedes, consistency, broke, remark }: EnterTrialCup,
): string {
  const reason = supersedes?.reason ?? ''
  if (reason !== '') return reason
  const seen = { remark: before.remark, consistency: before.consistency ?? '', broke: before.broke ?? '' }
  if (changesWhatWasRead({ ...valuesOf(before), ...seen }, { ...values, remark, consistency, broke }))
    throw invalidField('supersedes.reason', 'Something that was read is changed: give the reason.')
  return 'Completed'
}

function valuesOf(row: CupRow): CupValues {
  const { emulsion, water, additive, filler, temperature, mixTime, coated, clearWater } = toCup(row, undefined, '.')
  return { emulsion, water, additive, filler, temperature, mixTime, coated, clearWater }
}

function rowOf(
  { actor, at }: LaboratoryTransaction,
  input: EnterTrialCup,
  values: CupValues,
  place: { designRevisionId: string; number: number; reason: string | null },
): NewCupRow {
  return {
    labId: actor.labId,
    id: input.id,
    ...place,
    emulsionPercentText: values.emulsion.typed,
    emulsionPercent: values.emulsion.value,
    waterPercentText: values.water.typed,
    waterPercent: values.water.value,
    additivePercentText: values.additive.typed,
    additivePercent: values.additive.value,
    fillerPercentText: values.filler.typed,
    fillerPercent: values.filler.value,
    temperatureText: values.temperature?.typed ?? null,
    temperature: values.temperature?.value ?? null,
    mixTimeText: values.mixTime?.typed ?? null,
    mixTime: values.mixTime?.value ?? null,
    mixTimeFrom: values.mixTime ? input.mixTimeFrom : null,
    coatedText: values.coated?.typed ?? null,
    coated: values.coated?.value ?? null,
    clearWaterText: values.clearWater?.typed ?? null,
    clearWater: values.clearWater?.value ?? null,
    consistency: input.consistency === '' ? null : input.consistency,
    broke: input.broke === '' ? null : input.broke,
    startedAt: input.startedAt === null ? null : new Date(input.startedAt),
    remark: input.remark,
    supersedesId: input.supersedes?.id ?? null,
    byId: actor.membershipId,
    at,
  }
}
