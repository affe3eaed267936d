import { readLine, unitOfLine, type LineFormat } from '@curebook/trade/quantity/balance-line'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'

/** Lines that follow each other faster are sent all the time or twice, not each by a press of the print key. Our own choice, no source. */
export const quietMs = 2000

export type SentWeight =
  | {
      readonly kind: 'weight'
      /** As one would type it: `812.4 g`. */ readonly typed: string
      readonly pressed: boolean
    }
  | { readonly kind: 'not-understood'; readonly message: string }

export type SentLine = { readonly line: string; /** By the device's clock, ms. */ readonly at: number }

/**
 * What a line of the balance says. `before` is when the line before it came, or when it was connected: one that comes after
 * a while of quiet was sent by a press of the print key, or because the balance came to rest.
 */
export function judgeLine(format: LineFormat, { line, at }: SentLine, before: number): SentWeight {
  const read = readLine(format, line)
  if (!read.ok) return { kind: 'not-understood', message: read.message }
  const number = readTypedNumber(read.digits, { mayBeNegative: true })
  if (!number.ok) return { kind: 'not-understood', message: number.message }
  const unit = unitOfLine(format)
  return {
    kind: 'weight',
    typed: unit === undefined ? number.digits : `${number.digits} ${unit}`,
    pressed: at - before >= quietMs,
  }
}

export type OpenField = {
  /** What stands in the field. */
  readonly typed: string
  /** What the balance put there last, if anything. */
  readonly put: string | undefined
  /** The weight that was sent last before this field was opened: what lies on the balance may still be the one before. */
  readonly heldOver: string | undefined
}

/**
 * Whether a weight goes into the open field. A press of the print key always does; what is sent all the time neither takes
 * the place of what a person typed, nor is the weight of the specimen before put in for the next one.
 */
export function goesInto({ typed, put, heldOver }: OpenField, weight: { typed: string; pressed: boolean }): boolean {
  if (weight.pressed) return true
  if (typed !== '' && typed !== put) return false
  return weight.typed !== heldOver && weight.typed !== typed
}
