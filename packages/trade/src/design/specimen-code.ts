/**
 * Short codes for a paint marker: four characters for the first 4,913 numbers, five for the next 83,521, then longer.
 * Left out are characters that look alike when written by hand (0 O Q, 1 I L, 2 Z, 4 A is 4 only, 5 S, 6 G, 8 B, E F is F
 * only, U V) or upside down on a round disc (6 and 9, M and W), and all vowels, so that no word comes out. Seventeen are
 * left, a prime: one wrong character, or two exchanged, never gives another code.
 */
const alphabet = '3479CDFHJKMNPRTXY'
const base = alphabet.length
/** Common practice, no source: four characters are read off a disc at a glance. */
const shortest = 4

/** Why a typed text is not a code. */
export type CodeRefusal = { readonly code: 'empty' | 'length' | 'character' | 'check'; readonly sentence: string }

/**
 * The code of a number counted from 1: the same number always gives the same code, no two numbers share one.
 * Neighbours are scattered, so that the codes of one rack differ in more than their last character.
 * @throws RangeError for anything but a whole number from 1
 */
export function codeOf(number: number): string {
  if (!Number.isSafeInteger(number) || number < 1)
    throw new RangeError(`A code needs a whole number from 1, not ${number}.`)
  let length = shortest
  let rest = number - 1
  while (rest >= capacity(length)) {
    rest -= capacity(length)
    length += 1
  }
  const payload = scatter(rest, length)
  const digits = Array.from({ length: length - 1 }, (_, place) => Math.floor(payload / base ** place) % base)
  return [...digits, checkDigit(digits)].map((digit) => alphabet.charAt(digit)).join('')
}

export { codeOf as specimenCode }

/** Whether a text is a code exactly as written on a specimen. */
export function isCode(text: string): boolean {
  if (text.length < shortest) return false
  const digits = [...text].map((character) => alphabet.indexOf(character))
  return digits.every((digit) => digit >= 0) && checkDigit(digits.slice(0, -1)) === digits.at(-1)
}

/** Upper case, without the spaces, points and hyphens that people put between characters. */
export function normaliseCode(typed: string): string {
  return typed.toUpperCase().replace(/[\s.\-–_]/g, '')
}

/** Reads a typed or scanned code; a slip is said, never guessed away. */
export function readCode(
  typed: string,
): { readonly ok: true; readonly code: string } | { readonly ok: false; readonly refusal: CodeRefusal } {
  const code = normaliseCode(typed)
  const refuse = (kind: CodeRefusal['code'], sentence: string) =>
    ({ ok: false, refusal: { code: kind, sentence } }) as const
  if (code === '') return refuse('empty', 'Type the code on the specimen.')
  const stranger = [...code].find((character) => !alphabet.includes(character))
  if (stranger) return refuse('character', `“${stranger}” is not used in codes. Read the specimen again.`)
  if (code.length < shortest)
    return refuse('length', `A code has at least ${shortest} characters, “${code}” has ${code.length}.`)
  if (!isCode(code)) return refuse('check', `“${code}” is not a code: one character is off. Read the specimen again.`)
  return { ok: true, code }
}

function capacity(length: number): number {
  return base ** (length - 1)
}

/**
 * Steps round the numbers of one length by about the golden section, by definition (√5 − 1) ÷ 2; the step shares no factor
 * with their count.
 */
function scatter(rest: number, length: number): number {
  const count = capacity(length)
  const near = Math.trunc(count * 0.618 + 0.5)
  const step = near % base === 0 ? near + 1 : near
  return Number((BigInt(rest) * BigInt(step) + BigInt(length)) % BigInt(count))
}

/** Makes the sum of character × weight a multiple of 17; the weights (2, 3, 4 … and 1) differ from place to place. */
function checkDigit(digits: readonly number[]): number {
  const sum = digits.reduce((total, digit, place) => total + digit * ((place % (base - 2)) + 2), 0)
  return (base - (sum % base)) % base
}
