import type { AddFactor, Instrument } from '@curebook/contract/instruments'
import { decimal } from '@curebook/trade/quantity/decimal'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { invalidField } from '#platform/problem'

/** Which factor a machine's record holds, by its kind; other instruments hold none. */
export const factorKeyOf: Partial<Record<Instrument['kind'], 'area' | 'frame'>> = {
  'wet-track-machine': 'area',
  'loaded-wheel': 'frame',
}

/** What a balance can show: a capacity and a smallest step that a mass can have, the step within the capacity. */
export function checkShown({ capacity, resolution }: Pick<Instrument, 'capacity' | 'resolution'>): void {
  const shown = { capacity: ['capacity', capacity], resolution: ['smallest step', resolution] } as const
  for (const [path, [what, digits]] of Object.entries(shown))
    if (digits !== null && decimal(digits).lte(0)) throw invalidField(path, `The ${what} must be more than 0.`)
  if (capacity !== null && resolution !== null && decimal(resolution).gt(capacity))
    throw invalidField('resolution', `The smallest step cannot be more than the capacity, ${capacity}.`)
}

/** A machine holds one kind of factor, other instruments none. */
export function checkKey(instrument: Pick<Instrument, 'code' | 'kind'>, { key }: Pick<AddFactor, 'key'>): void {
  const holds = factorKeyOf[instrument.kind]
  if (holds === undefined)
    throw invalidField(
      'key',
      `${instrument.code} is no machine with a factor: only a wet track machine and a loaded wheel hold one.`,
    )
  if (holds !== key)
    throw invalidField(
      'key',
      holds === 'area'
        ? `${instrument.code} holds the factor of its abraded area.`
        : `${instrument.code} holds the factor of its sand frame.`,
    )
}

/** @returns the factor’s digits */
export function readFactor({ typed, unit }: Pick<AddFactor, 'typed' | 'unit'>): string {
  const read = readTypedNumber(typed, { unit, label: 'The factor' })
  if (!read.ok) throw invalidField('typed', read.message)
  if (decimal(read.value).lte(0)) throw invalidField('typed', `The factor must be more than 0 ${unit}.`)
  return read.value
}

export function checkArea({ measuredAreaCm2 }: Pick<AddFactor, 'measuredAreaCm2'>): void {
  if (measuredAreaCm2 !== null && decimal(measuredAreaCm2).lte(0))
    throw invalidField('measuredAreaCm2', 'The measured area must be more than 0 cm².')
}
