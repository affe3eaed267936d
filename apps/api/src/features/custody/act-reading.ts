import type { RecordAct } from '@curebook/contract/custody'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { invalidField } from '#platform/problem'

/** What was typed with an act, read: digits in grams, °C and %, null where nothing was typed. */
export type ActNumbers = {
  readonly temperature: string | null
  readonly mass: string | null
  readonly pieces: readonly string[]
  readonly loss: string
  readonly left: string | null
  readonly weighed: string | null
  readonly scalped: string | null
}

/** @throws AppError `invalid-input` beside the field that is no such number */
export function readActNumbers(act: RecordAct): ActNumbers {
  const split = act.kind === 'split' ? act : undefined
  return {
    temperature: read(act.temperature, 'temperature', 'The temperature', '°C', true),
    mass: read(act.kind === 'received' ? act.mass : undefined, 'mass', 'The mass', 'g'),
    pieces: (split?.pieces ?? []).map(({ mass }, n) =>
      read(mass, `pieces.${n}.mass`, `The mass of piece ${n + 1}`, 'g')!,
    ),
    loss: read(split?.loss, 'loss', 'The loss', 'g') ?? '0',
    left: read(split?.left, 'left', 'What is left', 'g'),
    weighed: read(split?.weighed, 'weighed', 'The mass before the split', 'g'),
    scalped: read(split?.scalped, 'scalped', 'The share taken off', '%'),
  }
}

function read(typed: string | undefined, path: string, label: string, unit: string, mayBeNegative = false) {
  if (typed === undefined) return null
  const number = readTypedNumber(typed, { unit, label, mayBeNegative })
  if (!number.ok) throw invalidField(path, number.message)
  return number.value
}
