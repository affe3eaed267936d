import { unitOfSpelling } from './unit-table.ts'

/** How one balance writes a line, told by one line that it sent and the number that it showed then. */
export type LineExample = {
  /** As it came, without its line end: `ST,GS,+  0812.4 g`. */
  readonly line: string
  /** What the display showed: `812.4`. */
  readonly shown: string
}

export type LineFormat = {
  /** Lines of this kind, the number as the only group. */
  readonly exact: RegExp
  /** The same with any words, or none, where the example has words. */
  readonly otherWords: RegExp
  readonly words: readonly string[]
}

export type LearnedLine =
  { readonly ok: true; readonly format: LineFormat } | { readonly ok: false; readonly message: string }

export type ReadLine =
  | { readonly ok: true; /** Sign and digits as sent, without spaces between. */ readonly digits: string }
  | { readonly ok: false; readonly code: 'other-words' | 'not-understood'; readonly message: string }

/**
 * Learns from one example how a balance writes. Digits beside the weight (a running number, a time) may change from line
 * to line; words (steady, net, the unit) may not, since a line with other words is of another state of the balance.
 */
export function learnLine({ line, shown }: LineExample): LearnedLine {
  const text = line.trim()
  const number = shown.trim().replace(/^[+\-−]\s*/, '')
  if (!/^[0-9]+([.,][0-9]+)?$/.test(number))
    return { ok: false, message: 'Give the number that the balance showed, like 812.4, without its unit.' }
  const places = [...text.matchAll(new RegExp(`(?<![0-9.,])0*${literal(number)}(?![0-9]|[.,][0-9])`, 'g'))]
  if (places.length === 0)
    return { ok: false, message: `${number} does not stand in the line: check both, digit by digit.` }
  if (places.length > 1)
    return { ok: false, message: `${number} stands in the line twice: take a line in which it stands once.` }
  const at = places[0]!.index
  const head = text.slice(0, at).replace(/[+\-−]?\s*$/u, '')
  const tail = text.slice(at + places[0]![0].length)
  const around = (part: string, words: (word: string) => string) =>
    [...part.matchAll(/\p{L}+|[0-9]+|\s+|[^\p{L}0-9\s]/gu)]
      .map(([piece]) => {
        if (/^\s/.test(piece)) return '\\s*'
        if (/^[0-9]/.test(piece)) return '[0-9]+'
        return /^\p{L}/u.test(piece) ? words(piece) : literal(piece)
      })
      .join('')
  const pattern = (words: (word: string) => string) =>
    new RegExp(`^\\s*${around(head, words)}\\s*([+\\-−]?\\s*[0-9]+(?:[.,][0-9]+)?)${around(tail, words)}\\s*$`, 'u')
  return {
    ok: true,
    format: {
      exact: pattern(literal),
      otherWords: pattern(() => '\\p{L}*'),
      words: [...`${head} ${tail}`.matchAll(/\p{L}+/gu)].map(([word]) => word),
    },
  }
}

/** The number of a line by what was learnt; a line of another form is never guessed at. */
export function readLine(format: LineFormat, line: string): ReadLine {
  const found = format.exact.exec(line)
  if (found !== null) return { ok: true, digits: found[1]!.replace(/\s/g, '') }
  const seen = line.trim()
  if (!format.otherWords.test(line))
    return {
      ok: false,
      code: 'not-understood',
      message: `“${seen}” is not written like the example of this balance: type the number.`,
    }
  const sent = new Set([...seen.matchAll(/\p{L}+/gu)].map(([word]) => word))
  const missing = format.words.filter((word) => !sent.has(word))
  return {
    ok: false,
    code: 'other-words',
    message: `“${seen}” lacks “${missing.join(' ')}”: the balance was not steady, or not in the mode of the example.`,
  }
}

/** The unit that the words of an example name, if one of them is a unit known here. */
export function unitOfLine(format: LineFormat): string | undefined {
  return format.words.toReversed().map(unitOfSpelling).find(Boolean)
}

const literal = (text: string) => text.replace(/[\\^$.*+?()[\]{}|/-]/g, '\\$&')
