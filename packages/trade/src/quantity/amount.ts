import { decimal, plainDigits } from './decimal.ts'
import { readTypedNumber } from './typed-number.ts'
import { unitOfSpelling, units, type Unit } from './unit-table.ts'
import { convert } from './units.ts'

export type Amount =
  | {
      readonly ok: true
      /** As typed, with a point as decimal sign. */
      readonly digits: string
      readonly unit: Unit
      /** In grams; null for a volume, whose density nobody told. */
      readonly massG: string | null
    }
  | { readonly ok: false; readonly message: string }

/** What a container holds, with its own unit as typed: `24.8 kg`, `5 L`. A bare number says nothing and is refused. */
export function readAmount(text: string, label = 'The amount'): Amount {
  const example = `${label} is a mass or a volume with its unit, like 24.8 kg or 5 L.`
  const spelled = /([^\s0-9.,+\-−].*)$/u.exec(text.trim())?.[1]
  const unit = spelled === undefined ? undefined : unitOfSpelling(spelled)
  if (unit === undefined) return { ok: false, message: example }
  const { dimension } = units[unit]
  if (dimension !== 'mass' && dimension !== 'volume') return { ok: false, message: example }
  const read = readTypedNumber(text, { unit, label })
  if (!read.ok) return { ok: false, message: read.message }
  const value = decimal(read.digits)
  if (value.lte(0)) return { ok: false, message: `${label} must be more than 0 ${unit}.` }
  return {
    ok: true,
    digits: read.digits,
    unit,
    massG: dimension === 'mass' ? plainDigits(convert(value, unit, 'g')) : null,
  }
}
