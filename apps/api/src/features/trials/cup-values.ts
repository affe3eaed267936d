import {
  type CupLook,
  type CupReading,
  type CupShare,
  cupLooks,
  cupReadings,
  cupShares,
  type EnterTrialCup,
} from '@curebook/contract/trials'
import type { FieldError } from '@curebook/contract/problem'
import { decimal } from '@curebook/trade/quantity/decimal'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { AppError } from '#platform/problem'

/** How each value of a cup is read. Limits are of what can be, never of what is usual: what was seen is kept. */
const asked: Record<CupShare | CupReading, { unit: string; label: string; most?: string; mayBeNegative?: true }> = {
  emulsion: { unit: '%', label: 'The emulsion', most: '100' },
  water: { unit: '%', label: 'The added water', most: '100' },
  additive: { unit: '%', label: 'The additive', most: '100' },
  filler: { unit: '%', label: 'The filler', most: '100' },
  temperature: { unit: '°C', label: 'The temperature', mayBeNegative: true },
  mixTime: { unit: 's', label: 'The mix time' },
  coated: { unit: '%', label: 'The coated part', most: '100' },
  clearWater: { unit: 'min', label: 'The time to clear water' },
}

export type CupValue = { readonly typed: string; readonly value: string }
/** What is said of a cup in words: chosen or written. Empty: nothing. */
export type CupWords = Readonly<Record<CupLook | 'remark', string>>
export type CupValues = Record<CupShare, CupValue> & Record<CupReading, CupValue | null>

/** Reads every value of a cup, or tells each fault beside its field. A share left empty was not added: nought. */
export function readCup(input: EnterTrialCup): CupValues {
  const errors: FieldError[] = []
  const read = (key: CupShare | CupReading, typed: string): CupValue => {
    const { most, ...options } = asked[key]
    const found = readTypedNumber(typed, options)
    if (!found.ok) errors.push({ path: key, message: found.message })
    else if (most !== undefined && decimal(found.value).gt(most))
      errors.push({ path: key, message: `${options.label} cannot be more than ${most} ${options.unit}.` })
    else if (key === 'emulsion' && decimal(found.value).isZero())
      errors.push({ path: key, message: 'A cup without emulsion has no mix time: the emulsion must be more than 0 %.' })
    return { typed, value: found.ok ? found.value : '0' }
  }
  const values = {
    ...Object.fromEntries(cupShares.map((key) => [key, read(key, input[key] === '' ? '0' : input[key])])),
    ...Object.fromEntries(cupReadings.map((key) => [key, input[key] === '' ? null : read(key, input[key])])),
  } as CupValues
  if (errors.length > 0) throw new AppError('invalid-input', errors[0]!.message, { errors })
  return values
}

/** Whether something that was read stands otherwise now: then a reason is owed. What was open may be completed without. */
export function changesWhatWasRead(before: CupValues & CupWords, now: CupValues & CupWords): boolean {
  const keys = [...cupShares, ...cupReadings]
  return (
    keys.some((key) => before[key] !== null && before[key].typed !== now[key]?.typed) ||
    ([...cupLooks, 'remark'] as const).some((key) => before[key] !== '' && before[key] !== now[key])
  )
}
