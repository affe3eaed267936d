import type { AdoptSpecification, Specification } from '@curebook/contract/specifications'
import type { FieldError } from '@curebook/contract/problem'
import { isUnit, units } from '@curebook/trade/quantity/unit-table'
import { adoptSpecification } from '@curebook/trade/specification/adopt'
import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import type {
  BuiltInSpecification,
  Specification as TradeSpecification,
} from '@curebook/trade/specification/specification'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField } from '#platform/problem'
import { toBuiltIn, toRules, toSpecification } from './specifications.mapper.ts'
import { findSpecification, findSpecifications, insertSpecification } from './specifications.repository.ts'

export type SpecificationsService = ReturnType<typeof createSpecificationsService>

/** What results must meet: built-in guideline values, adopted as a copy with the contract's changes. */
export function createSpecificationsService({ laboratory }: { laboratory: Laboratory }) {
  /** A specification inside another feature's transaction; null where there is none. */
  const readIn = async (tx: LaboratoryTransaction, id: string): Promise<Specification | null> => {
    const row = await findSpecification(tx, id)
    return row && toSpecification(row)
  }

  return {
    readIn,
    /** The same as the trade's rules read it, for the acceptable range and the panel. */
    rulesIn: async (tx: LaboratoryTransaction, id: string): Promise<TradeSpecification | null> => {
      const row = await findSpecification(tx, id)
      return row && toRules(row)
    },

    list: (actor: Actor) =>
      laboratory.inLaboratory(actor, async (tx) => ({
        items: (await findSpecifications(tx)).map(toSpecification),
        next: null,
      })),

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
          const revision = await insertSpecification(tx, {
            id: input.id,
            key: limits.builtInKey,
            name: limits.name,
            limits,
          })
          tx.record({
            action: 'specification:adopt',
            subjectKind: 'specification',
            subjectId: input.id,
            topics: ['specifications'],
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
