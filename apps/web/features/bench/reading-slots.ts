import type { Reading } from '@curebook/contract/bench'
import type { ReadingDeclaration, StepDeclaration } from '@curebook/trade/procedure/declaration'

/** One place for one reading: a declared reading, or one of its repeats. */
export type ReadingSlot = {
  readonly stepKey: string
  readonly declaration: ReadingDeclaration
  readonly repeat: number
}

export function slotsOfStep(step: StepDeclaration): readonly ReadingSlot[] {
  return step.readings.flatMap((declaration) =>
    Array.from({ length: declaration.repeats ?? 1 }, (_, index) => ({
      stepKey: step.key,
      declaration,
      repeat: index + 1,
    })),
  )
}

type Place = { readonly stepKey: string; readonly key: string; readonly repeat: number }

export function slotKey({ stepKey, key, repeat }: Place): string {
  return `${stepKey}/${key}/${repeat}`
}
export function placeOfSlot({ stepKey, declaration, repeat }: ReadingSlot): Place {
  return { stepKey, key: declaration.key, repeat }
}

/** The reading that stands in a slot, with those before it, newest first: those that it took the place of, or that were taken back. */
export function readingsIn(
  slot: ReadingSlot,
  readings: readonly Reading[],
): { readonly current: Reading | undefined; readonly earlier: readonly Reading[] } {
  const wanted = slotKey(placeOfSlot(slot))
  const own = readings.filter((reading) => slotKey(reading) === wanted)
  const current = own.findLast(({ superseded }) => !superseded)
  // Where the slot is open again, what was taken back last stands at the top of those before.
  const replaced = new Set(own.flatMap(({ supersedes }) => supersedes?.id ?? []))
  const opened = current === undefined ? own.findLast(({ id, withdrawn }) => withdrawn && !replaced.has(id)) : undefined
  const earlier: Reading[] = opened === undefined ? [] : [opened]
  for (let next = (current ?? opened)?.supersedes; next !== undefined && next !== null;) {
    const id: string = next.id
    const found = own.find((reading) => reading.id === id)
    if (found === undefined || earlier.includes(found)) break
    earlier.push(found)
    next = found.supersedes
  }
  return { current, earlier }
}

/** A step's required slots first, in the order they are read; the optional ones apart. */
export function partsOfStep(step: StepDeclaration): {
  readonly required: readonly ReadingSlot[]
  readonly optional: readonly ReadingSlot[]
} {
  const slots = slotsOfStep(step)
  return {
    required: slots.filter(({ declaration }) => declaration.optional !== true),
    optional: slots.filter(({ declaration }) => declaration.optional === true),
  }
}

/** The readings of a step that a rack can be weighed for: one number a specimen. */
export function rackReadings(step: StepDeclaration): readonly ReadingDeclaration[] {
  return step.readings.filter(
    ({ kind, repeats = 1, optional }) => (kind === 'number' || kind === 'count') && repeats === 1 && optional !== true,
  )
}
