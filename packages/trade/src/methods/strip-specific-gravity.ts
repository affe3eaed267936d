import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import type { ComputedResult, EvaluationSetup, ObservedReading } from '../procedure/declaration.ts'
import { parameterOf, resultOf } from '../procedure/evaluation.ts'
import { plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { optionalReading, outsideUsual, takePositive } from './working-inputs.ts'

const source = 'ISSA TB-147, from memory, unverified'
const step = 'weigh-in-water'

/** A ratio of two masses has no unit. */
export const specificGravityUnit = '1'
export const specificGravity = {
  key: 'specific-gravity',
  label: 'Specific gravity after the wheel',
  displayDecimals: 2,
}

/**
 * Mass in air ÷ (mass in air − mass in water); with a surface-dry weighing, ÷ (surface dry − in water), so that the water
 * that a porous strip drank counts as its own volume. Weighed with its plate, mass and lift of the plate are taken off.
 * None while the strip was not weighed in both.
 * @throws MethodInputError `missing-reading` when the plate has to be taken off and was not weighed; `not-positive`;
 * `inconsistent` for masses that cannot be
 */
export function stripSpecificGravity(
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): readonly ComputedResult[] {
  const reading = (key: string) => optionalReading(readings, step, key)
  const as = reading('weighed-as')
  const inAir = reading('in-air')
  const inWater = reading('in-water')
  if (!as || !inAir || !inWater) return []
  const work = createCalculation()
  const withPlate = as.value === 'plate'
  if (withPlate) takePlate(work, reading('plate-in-air'), reading('plate-in-water'))
  const surfaceDry = reading('surface-dry')
  takeMass(work, { symbol: 'A', name: 'Strip dry, in air', plate: withPlate ? 'p' : null }, inAir)
  takeMass(work, { symbol: 'W', name: 'Strip in water', plate: withPlate ? 'q' : null }, inWater)
  if (surfaceDry) {
    takeMass(work, { symbol: 'S', name: 'Strip surface dry, in air', plate: withPlate ? 'p' : null }, surfaceDry)
    const drunk = work.difference({ symbol: 'd', name: 'Water drunk', unit: 'g', source: 'arithmetic' }, 'S', 'A')
    if (drunk.lt(0))
      throw impossible(
        'Surface dry it weighs less than dry: grains lost in the water, or the two exchanged? Weigh again.',
        {
          'surface dry': `${surfaceDry.value} g`,
          dry: `${inAir.value} g`,
        },
      )
  }
  const outside = surfaceDry ? 'S' : 'A'
  const lift = work.difference({ symbol: 'V', name: 'Lift of the strip in water', unit: 'g', source }, outside, 'W')
  if (lift.lte(0))
    throw impossible('In water it weighs no less than in air: the two exchanged? Weigh again.', {
      'in air': `${inAir.value} g`,
      'in water': `${inWater.value} g`,
    })
  const text = { symbol: 'G', name: specificGravity.label, unit: specificGravityUnit, source }
  const value = work.quotient(text, 'A', 'V')
  const findings = outsideUsual(specificGravity.label, value, '', {
    least: parameterOf(setup, 'specific-gravity-usual-least'),
    most: parameterOf(setup, 'specific-gravity-usual-most'),
  })
  return [{ ...resultOf(work.calculation(), specificGravity), findings }]
}

function takePlate(
  work: CalculationBuilder,
  inAir: ObservedReading | undefined,
  inWater: ObservedReading | undefined,
): void {
  if (!inAir || !inWater)
    throw new MethodInputError(
      'missing-reading',
      'Weighed with its plate: weigh the plate alone too, in air and in water.',
    )
  const text = { unit: 'g', source: 'as weighed' } as const
  takePositive(work, { symbol: 'p', name: 'Plate alone, in air', ...text }, inAir)
  takePositive(work, { symbol: 'q', name: 'Plate alone, in water', ...text }, inWater)
}

/** A mass of the strip; of a weighing with the plate, what is left without it. */
function takeMass(
  work: CalculationBuilder,
  { symbol, name, plate }: { readonly symbol: string; readonly name: string; readonly plate: string | null },
  reading: ObservedReading,
): void {
  const text = { unit: 'g', source: 'as weighed' } as const
  if (plate === null) {
    takePositive(work, { symbol, name, ...text }, reading)
    return
  }
  const whole = `${symbol}p`
  takePositive(work, { symbol: whole, name: `${name}, with plate`, ...text }, reading)
  const left = work.difference({ symbol, name, unit: 'g', source: 'arithmetic' }, whole, plate)
  if (left.lte(0))
    throw impossible(`${name}: with its plate it weighs no more than the plate alone. Weigh both again.`, {
      [symbol]: `${plainDigits(left)} g`,
    })
}

function impossible(text: string, detail: Readonly<Record<string, string>>): MethodInputError {
  return new MethodInputError('inconsistent', text, detail)
}
