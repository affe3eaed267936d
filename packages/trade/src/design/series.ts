import { decimal, plainDigits } from '../quantity/decimal.ts'
import { castingOrder } from './casting-order.ts'
import type { ItemForm } from '../procedure/declaration.ts'

export type SeriesKind = 'full' | 'verification'
/** One content to be made; shares in % of dry aggregate, in digits. */
export type SeriesContent = {
  readonly emulsionPercent: string
  readonly waterPercent: string
  readonly fillerPercent: string
  readonly additivePercent: string
}
export type SeriesMethod = {
  readonly methodKey: string
  /** Form of the specimen that the method tests. */
  readonly form: ItemForm
  readonly replicates: number
  readonly spares: readonly { readonly emulsionPercent: string; readonly count: number }[]
}
export type SeriesInput = {
  readonly kind: SeriesKind
  readonly contents: readonly SeriesContent[]
  readonly methods: readonly SeriesMethod[]
}

export type PlannedMix = SeriesContent & { readonly mixOrdinal: number }
export type PlannedSpecimen = {
  readonly mixOrdinal: number
  readonly emulsionPercent: string
  readonly methodKey: string
  readonly form: ItemForm
  /** From 1 within content and method; spares go on counting. */
  readonly replicate: number
  readonly purpose: 'series' | 'spare'
  /** Content and replicate: "10-1". */
  readonly label: string
}
/** Specimens stand in the order of casting, method by method. */
export type Series = { readonly mixes: readonly PlannedMix[]; readonly specimens: readonly PlannedSpecimen[] }

export type SeriesProblem = {
  readonly code:
    | 'no-contents'
    | 'no-methods'
    | 'not-a-number'
    | 'content-out-of-range'
    | 'share-negative'
    | 'duplicate-content'
    | 'duplicate-method'
    | 'too-few'
    | 'unknown-spare-content'
    | 'one-content-only'
  /** Path into the input: "contents.2.emulsionPercent". */
  readonly path: string
  readonly sentence: string
}
export type SeriesOutcome =
  { readonly ok: true; readonly series: Series } | { readonly ok: false; readonly problems: readonly SeriesProblem[] }

/** Emulsion contents that can be planned, % of dry aggregate; common practice, no source. */
export const plannableEmulsion = { from: '1', to: '30' } as const

/** Plans contents × methods × replicates, and the spares; every problem is named at once. */
export function planSeries(input: SeriesInput): SeriesOutcome {
  const problems = [...problemsOfContents(input), ...problemsOfMethods(input)]
  if (problems.length > 0) return { ok: false, problems }
  const mixes = input.contents.map((content, index) => ({ ...content, mixOrdinal: index + 1 }))
  return { ok: true, series: { mixes, specimens: input.methods.flatMap((method) => specimensOf(method, mixes)) } }
}

function specimensOf(method: SeriesMethod, mixes: readonly PlannedMix[]): readonly PlannedSpecimen[] {
  const planned = mixes.flatMap((mix) => {
    const count = method.replicates + sparesAt(method, mix)
    return Array.from({ length: count }, (_, index) => ({
      mix,
      content: mix.emulsionPercent,
      replicate: index + 1,
      spare: index >= method.replicates,
    }))
  })
  return castingOrder(planned, method.methodKey).map(({ mix, replicate, spare }) => ({
    mixOrdinal: mix.mixOrdinal,
    emulsionPercent: mix.emulsionPercent,
    methodKey: method.methodKey,
    form: method.form,
    replicate,
    purpose: spare ? 'spare' : 'series',
    label: `${plainDigits(decimal(mix.emulsionPercent))}-${replicate}`,
  }))
}

function sparesAt(method: SeriesMethod, mix: PlannedMix): number {
  return method.spares
    .filter(({ emulsionPercent }) => decimal(emulsionPercent).eq(mix.emulsionPercent))
    .reduce((sum, { count }) => sum + count, 0)
}

const shareWords = {
  emulsionPercent: 'emulsion content',
  waterPercent: 'added water',
  fillerPercent: 'mineral filler',
  additivePercent: 'additive',
} as const

function problemsOfContents({ kind, contents }: SeriesInput): readonly SeriesProblem[] {
  const found: SeriesProblem[] = []
  const say = (code: SeriesProblem['code'], path: string, sentence: string) => found.push({ code, path, sentence })
  if (contents.length === 0) say('no-contents', 'contents', 'Give at least one emulsion content.')
  if (kind === 'verification' && contents.length > 1)
    say('one-content-only', 'contents', `A verification is at one content: ${contents.length} are given.`)
  contents.forEach((content, index) => {
    for (const key of Object.keys(shareWords) as (keyof typeof shareWords)[]) {
      const path = `contents.${index}.${key}`
      const digits = content[key]
      if (!isNumber(digits)) say('not-a-number', path, `The ${shareWords[key]} must be a number, like 12.5.`)
      else if (key === 'emulsionPercent') {
        if (decimal(digits).lt(plannableEmulsion.from) || decimal(digits).gt(plannableEmulsion.to))
          say(
            'content-out-of-range',
            path,
            `The emulsion content must lie between 1 and 30 % of dry aggregate, not ${digits} %.`,
          )
        if (contents.slice(0, index).some((earlier) => sameNumber(earlier.emulsionPercent, digits)))
          say('duplicate-content', path, `The content ${digits} % stands twice: plan more replicates instead.`)
      } else if (decimal(digits).lt(0)) say('share-negative', path, `The ${shareWords[key]} cannot be less than 0 %.`)
    }
  })
  return found
}

function problemsOfMethods({ contents, methods }: SeriesInput): readonly SeriesProblem[] {
  const found: SeriesProblem[] = []
  const say = (code: SeriesProblem['code'], path: string, sentence: string) => found.push({ code, path, sentence })
  if (methods.length === 0) say('no-methods', 'methods', 'Choose at least one test.')
  methods.forEach((method, index) => {
    if (methods.slice(0, index).some(({ methodKey }) => methodKey === method.methodKey))
      say(
        'duplicate-method',
        `methods.${index}.methodKey`,
        'The same test is chosen twice: plan more replicates instead.',
      )
    if (!isCount(method.replicates))
      say('too-few', `methods.${index}.replicates`, 'A test needs at least one specimen at each content.')
    method.spares.forEach(({ emulsionPercent, count }, spare) => {
      const path = `methods.${index}.spares.${spare}`
      if (!isCount(count)) say('too-few', `${path}.count`, 'Give at least one spare, or leave the row out.')
      if (!contents.some((content) => sameNumber(content.emulsionPercent, emulsionPercent)))
        say('unknown-spare-content', `${path}.emulsionPercent`, `No content of ${emulsionPercent} % is planned.`)
    })
  })
  return found
}

function isNumber(digits: string): boolean {
  return /^-?\d+(\.\d+)?$/.test(digits)
}

function isCount(count: number): boolean {
  return Number.isSafeInteger(count) && count >= 1
}

function sameNumber(one: string, other: string): boolean {
  return isNumber(one) && isNumber(other) && decimal(one).eq(other)
}
