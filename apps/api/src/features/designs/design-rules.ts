import type { Material, MaterialKind } from '@curebook/contract/materials'
import type { FieldError } from '@curebook/contract/problem'
import type { DesignState } from '@curebook/contract/projects'
import { decimal } from '@curebook/trade/quantity/decimal'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { AppError } from '#platform/problem'

/** Which material each field of a design takes. */
export const materialFields = {
  aggregateId: 'aggregate',
  emulsionId: 'emulsion',
  fillerId: 'filler',
  additiveId: 'additive',
  waterId: 'water',
} as const satisfies Record<string, MaterialKind>
export type MaterialChoice = Partial<Record<keyof typeof materialFields, string | null>>

/** Fields whose sample is not here, or is of another kind. */
export function faultsOfMaterials(choice: MaterialChoice, here: readonly Material[]): FieldError[] {
  return (Object.keys(materialFields) as (keyof typeof materialFields)[]).flatMap((path): FieldError[] => {
    const id = choice[path]
    if (id === undefined || id === null) return []
    const kind = materialFields[path]
    const material = here.find((candidate) => candidate.id === id)
    if (!material)
      return [
        {
          path,
          message: `There is no such sample of ${kind} in this laboratory: choose one of the list, or enter it first.`,
        },
      ]
    if (material.kind !== kind)
      return [{ path, message: `${material.code} is ${wordsOf(material.kind)}: choose a sample of ${kind}.` }]
    return []
  })
}

/** What a test of the materials cannot be planned without; undefined where all of it is chosen. Every mix has these two. */
export function faultOfUnchosen({
  aggregateItemId,
  emulsionItemId,
}: {
  aggregateItemId: string | null
  emulsionItemId: string | null
}): string | undefined {
  const missing = [...(aggregateItemId ? [] : ['aggregate']), ...(emulsionItemId ? [] : ['emulsion'])]
  return missing.length === 0
    ? undefined
    : `It is made of the design’s materials, and no ${missing.join(' and no ')} is chosen: choose it with the design first.`
}

/** How much of the aggregate was taken off, where it was typed: a share from 0 to less than 100 %. */
export function faultOfScalped(typed: string | undefined): FieldError[] {
  if (typed === undefined || typed === '') return []
  const read = readTypedNumber(typed, { unit: '%', label: 'The part taken off' })
  const message = read.ok ? 'The part taken off must be less than 100 %: nothing would be left.' : read.message
  return read.ok && decimal(read.value).lt(100) ? [] : [{ path: 'scalpedPercent', message }]
}

/** States in which a revision's settings, series and entered values may change. */
const openStates: readonly DesignState[] = ['draft', 'in-work', 'sent-back']

/** @throws AppError `wrong-state` for a revision that is being reviewed or is approved */
export function assertOpen({ number, state }: { number: number; state: string }): void {
  if ((openStates as readonly string[]).includes(state)) return
  throw new AppError(
    'wrong-state',
    state === 'approved'
      ? `Revision ${number} is approved and does not change. Start a new revision from it.`
      : `Revision ${number} is in review. It changes again when it is sent back.`,
  )
}

/**
 * Results of the panel come in while the recommendation waits for its confirmation: they are taken until the approval. A
 * check that was given before stands for what it was of, and is given again.
 * @throws AppError `wrong-state` for a revision that is approved
 */
export function assertNotApproved({ number, state }: { number: number; state: string }): void {
  if (state === 'approved') assertOpen({ number, state })
}

function wordsOf(kind: MaterialKind): string {
  return kind === 'aggregate' || kind === 'emulsion' || kind === 'additive'
    ? `an ${kind}`
    : kind === 'filler'
      ? 'a filler'
      : 'water'
}
