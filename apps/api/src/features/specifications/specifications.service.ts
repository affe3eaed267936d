import type {
  EditSpecification,
  SpecificationHistory,
  WithdrawSpecification,
  WriteSpecification,
} from '@curebook/contract/own-specifications'
import type { AdoptSpecification, Specification, SpecificationsQuery } from '@curebook/contract/specifications'
import type { FieldError } from '@curebook/contract/problem'
import { isUnit, units } from '@curebook/trade/quantity/unit-table'
import { adoptSpecification } from '@curebook/trade/specification/adopt'
import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import { changesBetween } from '@curebook/trade/specification/specification-changes'
import type {
  BuiltInSpecification,
  Specification as TradeSpecification,
} from '@curebook/trade/specification/specification'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import {
  editSpecification,
  refuseNoProject,
  topicsOfLine,
  withdrawSpecification,
  writeSpecification,
} from './own-specifications.ts'
import { lineOf, placesInLines } from './specification-lines.ts'
import { toBuiltIn, toHistory, toRules, toSpecification } from './specifications.mapper.ts'
import {
  countDesigns,
  countProjects,
  findLinesOf,
  findSpecification,
  findSpecifications,
  findVersionsOf,
  insertSpecification,
  lockLines,
} from './specifications.repository.ts'

export type SpecificationsService = ReturnType<typeof createSpecificationsService>

/** What results must meet: built-in guideline values, adopted as a copy with the contract's changes. */
export function createSpecificationsService({ laboratory }: { laboratory: Laboratory }) {
  /** A specification inside another feature's transaction; null where there is none. */
  const readIn = async (tx: LaboratoryTransaction, id: string): Promise<Specification | null> => {
    const row = await findSpecification(tx, id)
    return row && toSpecification(row, placesInLines(await findLinesOf(tx, row.key)).get(id)!)
  }
  const historyIn = async (tx: LaboratoryTransaction, id: string): Promise<SpecificationHistory> => {
    const row = await findSpecification(tx, id)
    if (!row) throw notFound('specification')
    const line = lineOf(await findVersionsOf(tx, row.key), id)
    const ids = line.map((version) => version.id)
    return toHistory(id, line, { designs: await countDesigns(tx, ids), projects: await countProjects(tx, ids) })
  }
  const context = { laboratory, readIn, historyIn }

  return {
    readIn,
    historyIn,
    /** What another version says otherwise, inside another feature's transaction; both must be there. */
    changesIn: async (tx: LaboratoryTransaction, { from, to }: { from: string; to: string }) => {
      const [before, after] = [await findSpecification(tx, from), await findSpecification(tx, to)]
      if (!before || !after) throw notFound('specification')
      return changesBetween(toRules(before), toRules(after)).map((change) => ({ ...change }))
    },
    /** A contract's own copies that stand, the newest version of each. */
    copiesIn: async (tx: LaboratoryTransaction, projectId: string): Promise<readonly Specification[]> => {
      const rows = (await findSpecifications(tx, projectId)).filter((row) => row.projectId === projectId)
      const places = placesInLines(rows)
      return rows
        .map((row) => toSpecification(row, places.get(row.id)!))
        .filter(({ standing }) => standing === 'current')
    },
    /** The same for whoever is about to pin it: what is withdrawn at once waits until it is pinned. */
    readToChooseIn: async (tx: LaboratoryTransaction, id: string): Promise<Specification | null> => {
      const row = await findSpecification(tx, id)
      if (row) await lockLines(tx, row.key, { toChoose: true })
      return row && readIn(tx, id)
    },
    /** The same as the trade's rules read it, for the acceptable range and the panel. */
    rulesIn: async (tx: LaboratoryTransaction, id: string): Promise<TradeSpecification | null> => {
      const row = await findSpecification(tx, id)
      return row && toRules(row)
    },

    /** Those of every project, and of one contract alone where it is named. */
    list: (actor: Actor, { projectId }: SpecificationsQuery = {}) =>
      laboratory.inLaboratory(actor, async (tx) => {
        const rows = await findSpecifications(tx, projectId)
        const places = placesInLines(rows)
        return { items: rows.map((row) => toSpecification(row, places.get(row.id)!)), next: null }
      }),

    /** One version with all of its line, and what each changed. */
    history: (actor: Actor, id: string) => laboratory.inLaboratory(actor, (tx) => historyIn(tx, id)),

    write: (actor: Actor, input: WriteSpecification) => writeSpecification(context, actor, input),
    edit: (actor: Actor, id: string, input: EditSpecification) => editSpecification(context, actor, id, input),
    withdraw: (actor: Actor, id: string, input: WithdrawSpecification) =>
      withdrawSpecification(context, actor, id, input),

    /** Guideline values as shipped, in every variant that can be adopted. */
    builtIn: async () => ({ items: builtInSpecifications.map(toBuiltIn), next: null }),

    adopt: (actor: Actor, input: AdoptSpecification) =>
      createOnce(laboratory, actor, {
        subjectKind: 'specification',
        id: input.id,
        input,
        find: (tx) => readIn(tx, input.id),
        create: async (tx) => {
          const limits = adopted(input)
          await refuseNoProject(tx, input.projectId)
          const revision = await insertSpecification(tx, {
            id: input.id,
            key: limits.builtInKey,
            name: limits.name,
            limits,
            projectId: input.projectId,
          })
          tx.record({
            action: 'specification:adopt',
            subjectKind: 'specification',
            subjectId: input.id,
            projectId: input.projectId,
            topics: topicsOfLine(input.projectId),
            content: { ...input, revision: String(revision) },
          })
          return (await readIn(tx, input.id))!
        },
      }),
  }
}

/** The copy with the contract's changes. @throws AppError `invalid-input` with every fault beside its field */
function adopted(input: AdoptSpecification): TradeSpecification {
  const builtIn = builtInSpecifications.find(({ key }) => key === input.builtInKey)
  if (!builtIn)
    throw invalidField('builtInKey', `There are no guideline values “${input.builtInKey}”: choose one of the list.`)
  const outcome = adoptSpecification(builtIn, input)
  const errors = [
    ...(outcome.ok ? [] : outcome.problems.map(({ path, sentence }) => ({ path, message: sentence }))),
    ...faultsOfUnits(builtIn, input),
  ]
  if (!outcome.ok || errors.length > 0)
    throw new AppError('invalid-input', errors[0]?.message ?? 'The changes cannot stand.', { errors })
  return outcome.specification
}

/** A limit changes to a unit of its own kind only: g/m² to g/ft², kg·cm to N·m. */
function faultsOfUnits({ limits }: BuiltInSpecification, { changes }: AdoptSpecification): FieldError[] {
  return changes.flatMap(({ limitKey, unit }, index): FieldError[] => {
    const limit = limits.find(({ key }) => key === limitKey)
    if (!limit || unit === undefined || unit === limit.unit) return []
    if (isUnit(unit) && isUnit(limit.unit) && units[unit].dimension === units[limit.unit].dimension) return []
    return [
      {
        path: `changes.${index}.unit`,
        message: `“${limit.label}” is a limit in ${limit.unit}: give it in that unit, or in one of its kind.`,
      },
    ]
  })
}
