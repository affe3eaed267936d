import { shownDecimals } from '@curebook/contract/shown-decimals'
import { displayDigits, type DecimalSign } from '@curebook/trade/quantity/display'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'

const plainNumber = /^[+\-−]?\d+(\.\d+)?$/
const pointInNumber = /(?<![\d.\p{L}-])([+\-−±]?\d+)\.(\d+)(?![\d.])/gu
const spaceBeforeUnit = /(?<=\d) (?=(?:%|°C|g|kg|s|min|h|mm|N)(?![\p{L}\d]))/gu

export type ReportFormat = ReturnType<typeof createReportFormat>

/** A value as it was shown, without the unit that its column names already. */
export function withoutUnit(shown: string, unit: string): string {
  const written = writtenUnit(unit)
  const [digits, own] = [shown.slice(0, -written.length - 1), shown.slice(-written.length - 1)]
  return written !== '' && digits !== '' && own.replace('\u00a0', ' ') === ` ${written}` ? digits : shown
}

/**
 * Numbers and times as this laboratory writes them: its decimal sign, its zone. Digits are cut for the eye only, in one
 * step, halves to even; nothing is computed.
 */
export function createReportFormat({
  decimalSign,
  zone,
  months,
}: {
  decimalSign: string
  zone: string
  months: readonly string[]
}) {
  const sign: DecimalSign = decimalSign === ',' ? ',' : '.'
  const parts = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  })
  const timeOf = (instant: string) => {
    if (!/^\d{4}-\d\d-\d\dT/.test(instant)) return null
    const found = Object.fromEntries(parts.formatToParts(new Date(instant)).map(({ type, value }) => [type, value]))
    return found as { year: string; month: string; day: string; hour: string; minute: string }
  }
  const digits = (value: string, decimals?: number) => {
    if (!plainNumber.test(value)) return value
    const [, fraction = ''] = value.split('.')
    const cut = decimals !== undefined && fraction.length > decimals
    return displayDigits(value.replace('−', '-'), { sign, ...(cut ? { decimals } : {}) })
  }
  return {
    sign,
    /** Digits, cut to so many decimals where they hold more; words stay as they are. */
    digits,
    /** Digits padded or cut to so many decimals, so that a column lines up. */
    fixed: (value: string, decimals: number) =>
      plainNumber.test(value) ? displayDigits(value.replace('−', '-'), { sign, decimals }) : value,
    /** A value with its unit; the unit says how many decimals the eye needs. */
    quantity: (value: string, unit: string | null) =>
      [digits(value, shownDecimals(unit)), writtenUnit(unit)].filter((part) => part !== '').join('\u00a0'),
    decimalsOf: shownDecimals,
    /** A short text with numbers, such as a limit: the laboratory's decimal sign, and no number parted from its unit. */
    numbersIn: (text: string) => {
      const bound = text.replace(spaceBeforeUnit, '\u00a0')
      return sign === ',' ? bound.replace(pointInNumber, '$1,$2') : bound
    },
    /** `2026-03-05 11:22` in the laboratory's zone; anything that is not an instant stays as it is. */
    instant: (value: string) => {
      const time = timeOf(value)
      return time ? `${time.year}-${time.month}-${time.day} ${time.hour}:${time.minute}` : value
    },
    /** `2026-03-05`, of an instant or a day. */
    day: (value: string) => {
      const time = timeOf(value)
      return time ? `${time.year}-${time.month}-${time.day}` : value
    },
    /** `11:22`, in the laboratory's zone. */
    timeOfDay: (value: string) => {
      const time = timeOf(value)
      return time ? `${time.hour}:${time.minute}` : value
    },
    /** `5 Mar 11:22`, for tables whose year stands elsewhere. */
    shortTime: (value: string) => {
      const time = timeOf(value)
      return time
        ? `${Number(time.day)}\u00a0${months[Number(time.month) - 1]}\u00a0${time.hour}:${time.minute}`
        : value
    },
  }
}
