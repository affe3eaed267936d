import { compareDigits, convertDigits, differsByMoreThan, isMultipleOf } from '../quantity/digit-conversion.ts'
import { readTypedNumber, type TypedNumber, type TypedNumberRefusal } from '../quantity/typed-number.ts'
import { isUnit, units, writtenUnit } from '../quantity/unit-table.ts'
import type { ReadingDeclaration } from './declaration.ts'

/** What surrounds a reading when it is typed. */
export type ReadingContext = {
  /** The most that the instrument can show. */
  readonly capacity?: { readonly value: string; readonly unit: string }
  /** The instrument's own smallest step in the unit of the reading, where it is known. */
  readonly resolution?: string
  /** What the batch sheet asks for, in the unit of the reading, with the tolerance of the edition in that unit or in %. */
  readonly target?: string
  readonly tolerance?: { readonly value: string; readonly unit: string }
}

/** Something to ask before the reading is kept as it is. Never a refusal. */
export type ReadingQuestion = {
  readonly code: 'finer-than-instrument' | 'outside-usual' | 'off-target'
  readonly text: string
}

export type CheckedReading =
  | (Extract<TypedNumber, { ok: true }> & { readonly questions: readonly ReadingQuestion[] })
  | { readonly ok: true; readonly value: string; readonly questions: readonly [] }
  | {
      readonly ok: false
      readonly code: TypedNumberRefusal | 'over-capacity' | 'not-a-choice'
      readonly message: string
    }

/**
 * Reads what was typed for a declared reading, the same on the bench and at the server. Refused is only what no
 * instrument can show: no number, a wrong unit, more than its capacity. Everything else is at most asked about.
 */
export function checkReading(
  declaration: ReadingDeclaration,
  typed: string,
  context: ReadingContext = {},
): CheckedReading {
  const { kind, label, unit, plausible, choices = [] } = declaration
  if (kind === 'choice') {
    if (choices.some(({ key }) => key === typed)) return { ok: true, value: typed, questions: [] }
    const known = choices.map((choice) => choice.label).join(', ')
    return { ok: false, code: 'not-a-choice', message: `${label} must be one of: ${known}.` }
  }
  if (kind === 'text') {
    const value = typed.trim()
    if (value !== '') return { ok: true, value, questions: [] }
    return { ok: false, code: 'empty', message: `${label} is empty: write a word, or leave it out.` }
  }

  // A scale that may go below zero says so by its usual range; a balance never has to.
  const mayBeNegative = unit === '°C' || (plausible !== undefined && compareDigits(plausible.from, '0') < 0)
  const read = readTypedNumber(typed, { unit, label, mayBeNegative, wholeNumber: kind === 'count' })
  if (!read.ok) return read

  const capacity = capacityIn(unit, context.capacity)
  if (capacity !== null && compareDigits(read.value, capacity) > 0) {
    const message = `${label} cannot be ${say(read.value, unit)}: the instrument shows at most ${say(capacity, unit)}.`
    return { ok: false, code: 'over-capacity', message }
  }
  return { ...read, questions: questionsAbout(declaration, read, context) }
}

function questionsAbout(
  { label, unit, plausible, ...declared }: ReadingDeclaration,
  { value, digits, decimals }: Extract<TypedNumber, { ok: true }>,
  { resolution = declared.resolution, target, tolerance }: ReadingContext,
): readonly ReadingQuestion[] {
  const finer =
    resolution !== undefined &&
    value === digits &&
    (decimals > (resolution.split('.')[1]?.length ?? 0) || !isMultipleOf(value, resolution))
  const outside =
    plausible !== undefined && (compareDigits(value, plausible.from) < 0 || compareDigits(value, plausible.to) > 0)
  const off = target !== undefined && tolerance !== undefined && differsByMoreThan(value, target, tolerance)
  const questions: readonly (ReadingQuestion | false)[] = [
    finer && {
      code: 'finer-than-instrument',
      text: `${say(digits, unit)} is finer than the instrument’s step of ${say(resolution, unit)}. Read it again?`,
    },
    outside && {
      code: 'outside-usual',
      text: `${label} of ${say(value, unit)} is outside the usual ${plausible.from} to ${say(plausible.to, unit)} (${plausible.source}). Read it again, or keep it.`,
    },
    off && {
      code: 'off-target',
      text: `${label} of ${say(value, unit)} is off its target of ${say(target, unit)} by more than ${say(tolerance.value, tolerance.unit)}. Kept, it is used as weighed.`,
    },
  ]
  return questions.filter((question) => question !== false)
}

function capacityIn(unit: string | undefined, capacity: ReadingContext['capacity']): string | null {
  if (unit === undefined || !capacity || !isUnit(unit) || !isUnit(capacity.unit)) return null
  if (units[unit].dimension !== units[capacity.unit].dimension) return null
  return convertDigits(capacity.value, capacity.unit, unit)
}

function say(digits: string, unit: string | undefined): string {
  return [digits, writtenUnit(unit)].join(' ').trim()
}
