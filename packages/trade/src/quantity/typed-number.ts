import { convertDigits } from './digit-conversion.ts'
import { unitOfSpelling, units, type Unit } from './unit-table.ts'

export type TypedNumberOptions = {
  /** The unit that is expected: a name from `unit-table.ts`. None: no unit may be typed. */
  readonly unit?: string
  /** What is being typed, for the sentence: "Mass". */
  readonly label?: string
  readonly mayBeNegative?: boolean
  /** A count: no decimals. */
  readonly wholeNumber?: boolean
}

export type TypedNumberRefusal =
  | 'empty'
  | 'not-a-number'
  | 'two-signs' // both decimal signs, or two of one: a thousands grouping is never guessed
  | 'grouped' // spaces inside the digits
  | 'unfinished' // a decimal sign without digits after it
  | 'too-long' // more digits than anything here is measured with: a key was held down
  | 'wrong-unit'
  | 'negative'
  | 'not-whole'
  | 'not-steady' // the balance says itself that it was not at rest
  | 'overload' // the balance shows no number

export type TypedNumber =
  | {
      readonly ok: true
      /** As typed, with a point as decimal sign, without plus sign and padding zeros in front; trailing zeros kept. */
      readonly digits: string
      /** Decimals typed. */
      readonly decimals: number
      /** The unit that was typed, if any, by its name in the table. */
      readonly unitTyped?: Unit
      /** The digits in the expected unit; equal to `digits` unless another unit was typed. */
      readonly value: string
    }
  | { readonly ok: false; readonly code: TypedNumberRefusal; readonly message: string }

/** Digits before and after the decimal sign; more than any balance or certificate shows. Common practice, no source. */
const mostDigits = { before: 12, after: 20 }

const steadyWords = new Set(['s', 'st', 'stable', 'n', 'nt', 'net', 'g', 'gs', 'gr', 'gross', 'wt', 'w'])
const unsteadyWords = new Set(['us', 'sd', 'd', 'dyn', 'unstable'])
const overloadWords = new Set(['ol', 'ul', 'overload', 'underload', 'err', 'error'])

/**
 * Reads a measured value as a person types it or a balance prints it: `812,4`, ` 812.4 g`, `ST,GS,+  0812.4 g`.
 * Either decimal sign is read; nothing is rounded, padded or guessed. A mass per area is never converted.
 */
export function readTypedNumber(text: string, options: TypedNumberOptions = {}): TypedNumber {
  const refuse = (code: TypedNumberRefusal, remark = ''): TypedNumber => ({
    ok: false,
    code,
    message: sentence(options, remark),
  })
  const typed = text.trim().normalize('NFC')
  if (typed === '') return { ok: false, code: 'empty', message: emptySentence(options) }

  const { words, rest } = splitStatus(typed)
  if (words.some((word) => overloadWords.has(word))) return refuse('overload', 'The balance showed no number.')
  if (words.some((word) => unsteadyWords.has(word)))
    return refuse('not-steady', 'The balance was not at rest yet: wait until it is steady.')
  if (!words.every((word) => steadyWords.has(word))) return refuse('not-a-number')

  const parts = /^([+\-−])?\s*([0-9.,][0-9.,\s]*?)\s*([^\s0-9.,+\-−].*)?$/u.exec(rest)
  if (!parts) return refuse('not-a-number')
  const [, sign = '', number = '', unitText = ''] = parts

  if (/\s/.test(number)) return refuse('grouped', 'Leave out the spaces between the digits.')
  if ((number.match(/[.,]/g) ?? []).length > 1)
    return refuse('two-signs', 'Use one decimal sign and no signs between thousands.')
  if (/[.,]$/.test(number)) return refuse('unfinished', 'A digit is missing after the decimal sign.')

  const digits = signed(sign, number)
  const [before = '', after = ''] = digits.replace('-', '').split('.')
  if (before.length > mostDigits.before || after.length > mostDigits.after)
    return refuse('too-long', 'It has more digits than are measured: was a key held down?')
  const decimals = digits.split('.')[1]?.length ?? 0
  if (digits.startsWith('-') && !options.mayBeNegative) return refuse('negative', 'It cannot be less than zero.')
  if (options.wholeNumber && decimals > 0) return refuse('not-whole', 'It is counted in whole numbers.')

  const plain = { ok: true, digits, decimals, value: digits } as const
  if (unitText === '') return plain
  const unitTyped = unitOfSpelling(unitText)
  if (!unitTyped) return refuse(options.unit ? 'wrong-unit' : 'not-a-number', `“${unitText}” is not a unit known here.`)
  const expected = options.unit === undefined ? undefined : unitOfSpelling(options.unit)
  if (!expected) return refuse('wrong-unit', `Leave out “${unitText}”.`)
  if (unitTyped === expected) return { ...plain, unitTyped }
  const dimension = units[expected].dimension
  if (unitTyped === '%' && dimension.startsWith('share')) return { ...plain, unitTyped: expected }
  if (units[unitTyped].dimension !== dimension)
    return refuse('wrong-unit', `“${unitText}” is a unit of ${units[unitTyped].dimension}.`)
  if (dimension === 'mass per area')
    return refuse('wrong-unit', `A figure in ${unitTyped} is not converted: type the one published in ${expected}.`)
  return { ...plain, unitTyped, value: convertDigits(digits, unitTyped, expected) }
}

/** Parts the words in front of a printed weight (steady, net, gross …) from the rest. */
function splitStatus(text: string) {
  const status = /^((?:\p{L}+[\s,;:]+|\p{L}+(?=[+\-−]))+)/u.exec(text)?.[0] ?? ''
  // A line without any number, such as "overload", is all status.
  const alone = status === '' && /^\p{L}+$/u.test(text)
  const words = (alone ? text : status)
    .toLowerCase()
    .split(/[\s,;:]+/)
    .filter(Boolean)
  return { words, rest: alone ? '' : text.slice(status.length) }
}

function signed(sign: string, number: string): string {
  const point = number.replace(',', '.').replace(/^0+(?=[0-9])/, '')
  const digits = point.startsWith('.') ? `0${point}` : point
  return sign === '-' || sign === '−' ? `-${digits}` : digits
}

function sentence(options: TypedNumberOptions, remark: string): string {
  const right = `${options.label ?? 'This'} must be ${wanted(options)}.`
  return remark === '' ? right : `${right} ${remark}`
}

/** Nothing was typed: it says what to type, and blames no number. */
const emptySentence = (options: TypedNumberOptions) =>
  `${options.label ?? 'This'} is not entered: type ${wanted(options)}.`

function wanted({ unit, mayBeNegative, wholeNumber }: TypedNumberOptions): string {
  const known = unit === undefined ? undefined : unitOfSpelling(unit)
  const kind = wholeNumber ? 'a whole number' : 'a number'
  const words = known && known !== 'count' ? ` in ${units[known].words}` : ''
  // Examples of what can be typed; exact or not, they bound nothing.
  const [whole, usual] = ['12', known?.startsWith('%') ? '12.5' : known === '°C' ? '24.6' : '812.4']
  const example = wholeNumber ? whole : mayBeNegative ? `−0.4 or ${usual}` : usual
  return `${kind}${words}, like ${example}`
}
