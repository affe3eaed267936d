import type { Mix } from '@curebook/contract/designs'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'

export const shares = ['emulsionPercent', 'waterPercent', 'fillerPercent', 'additivePercent'] as const
export type Share = (typeof shares)[number]

/** One content as typed. `key` names the row while it is on screen. */
export type ContentRow = { readonly key: string } & Readonly<Record<Share, string>>
/** One test as typed; spares by the row of their content. */
export type MethodRow = {
  readonly methodKey: string
  readonly chosen: boolean
  readonly replicates: string
  readonly spares: Readonly<Record<string, string>>
}

export function emptyRow(key: string): ContentRow {
  return { key, emulsionPercent: '', waterPercent: '', fillerPercent: '', additivePercent: '' }
}

/** A further row takes over everything but the emulsion from the row above. */
export function rowAfter(rows: readonly ContentRow[], key: string): ContentRow {
  return { ...(rows.at(-1) ?? emptyRow(key)), key, emulsionPercent: '' }
}

/** A content that is planned already, with its shares as they stand, to be given further specimens. */
export function rowOfMix(mix: Mix, key: string): ContentRow {
  const { emulsionPercent, waterPercent, fillerPercent, additivePercent } = mix
  return { key, emulsionPercent, waterPercent, fillerPercent, additivePercent }
}

/** The first row's value in every row below. */
export function copyDown(rows: readonly ContentRow[], share: Share): readonly ContentRow[] {
  const value = rows[0]?.[share] ?? ''
  return rows.map((row) => ({ ...row, [share]: value }))
}

/** The plan as the contract wants it; what is no number stays as typed, for the contract to refuse beside its field. */
export function planOf(contents: readonly ContentRow[], methods: readonly MethodRow[]) {
  return {
    contents: contents.map((row) => Object.fromEntries(shares.map((share) => [share, digitsOf(row[share])]))),
    methods: chosenOf(methods).map(({ methodKey, replicates, spares }) => ({
      methodKey,
      replicates: countOf(replicates),
      spares: sparesOf(contents, spares).map(({ row, typed }) => ({
        emulsionPercent: digitsOf(row.emulsionPercent),
        count: countOf(typed),
      })),
    })),
  }
}

/** Where an error of a content's field is told. */
export function pathOfShare(index: number, share: Share): string {
  return ['contents', index, share].join('.')
}

/** Where an error of a test's field is told: by its place among the chosen tests, as the plan is sent. */
export function pathOfMethod(methods: readonly MethodRow[], methodKey: string): string {
  return ['methods', chosenOf(methods).findIndex((method) => method.methodKey === methodKey)].join('.')
}

export function pathOfSpare(
  contents: readonly ContentRow[],
  methods: readonly MethodRow[],
  method: MethodRow,
  rowKey: string,
): string {
  const index = sparesOf(contents, method.spares).findIndex(({ row }) => row.key === rowKey)
  return `${pathOfMethod(methods, method.methodKey)}.spares.${index === -1 ? rowKey : index}.count`
}

/** How many specimens the plan makes so far; fields that are no counts count as none. */
export function specimensOf(contents: readonly ContentRow[], methods: readonly MethodRow[]) {
  const chosen = chosenOf(methods)
  const whole = (typed: string) => (/^\d{1,3}$/.test(typed.trim()) ? Number(typed) : 0)
  const sum = (counts: readonly number[]) => counts.reduce((total, count) => total + count, 0)
  return {
    series: sum(chosen.map(({ replicates }) => whole(replicates) * contents.length)),
    spares: sum(chosen.flatMap(({ spares }) => sparesOf(contents, spares).map(({ typed }) => whole(typed)))),
  }
}

function chosenOf(methods: readonly MethodRow[]): readonly MethodRow[] {
  return methods.filter(({ chosen }) => chosen)
}

function sparesOf(contents: readonly ContentRow[], spares: MethodRow['spares']) {
  return contents.flatMap((row) => {
    const typed = (spares[row.key] ?? '').trim()
    return typed === '' || typed === '0' ? [] : [{ row, typed }]
  })
}

/** Either decimal sign, with or without the unit. */
export function digitsOf(typed: string): string {
  const read = readTypedNumber(typed, { unit: '%' })
  return read.ok ? read.value : typed.trim()
}

function countOf(typed: string): number | string {
  return /^\d{1,3}$/.test(typed.trim()) ? Number(typed) : typed.trim()
}
