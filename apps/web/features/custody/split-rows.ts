import { sharesOf } from '@curebook/trade/custody/split'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'

/** Pieces of one mass: 34 bags of 800 g are one row. */
export type SplitRow = {
  readonly key: string
  readonly count: string
  readonly kind: 'split' | 'bag'
  readonly mass: string
}

/** More than this in one act is refused by the contract as well. */
export const mostPieces = 200

/** Every piece of the rows; `idAt` gives a piece the same id each time it is asked, so that a retry is the same split. */
export function piecesOf(rows: readonly SplitRow[], idAt: (index: number) => string) {
  const pieces: { id: string; kind: 'split' | 'bag'; mass: string }[] = []
  for (const { count, kind, mass } of rows)
    for (let n = 0; n < countOf(count) && pieces.length <= mostPieces; n += 1)
      pieces.push({ id: idAt(pieces.length), kind, mass })
  return pieces
}

/** The path of a row's field. */
export function pathOfRow(index: number, field: 'count' | 'kind' | 'mass'): string {
  return ['rows', index, field].join('.')
}

/** What was refused of a piece, told at the row that it stands in; everything else stays where it is. */
export function errorsAtRows(
  rows: readonly SplitRow[],
  errors: Readonly<Record<string, string>>,
): Readonly<Record<string, string>> {
  const rowOf = rows.flatMap(({ count }, row) => Array.from({ length: countOf(count) }, () => row))
  return Object.fromEntries(
    Object.entries(errors).map(([path, message]) => {
      const row = rowOf[Number(/^pieces\.(\d+)\.mass$/.exec(path)?.[1] ?? -1)]
      return [row === undefined ? path : pathOfRow(row, 'mass'), message]
    }),
  )
}

/** How the mass would be shared out, in grams, or the sentence that speaks against it; undefined while something is missing. */
export function previewOf({
  rows,
  loss,
  left,
  weighed,
  massG,
}: {
  rows: readonly SplitRow[]
  loss: string
  left: string
  weighed: string
  massG: string | null
}): { readonly leftG: string } | { readonly sentence: string } | undefined {
  const masses = piecesOf(rows, String).map(({ id, mass }) => ({ id, massG: grams(mass) }))
  if (masses.length === 0 || masses.some((piece) => piece.massG === undefined)) return undefined
  const typed = { loss: grams(loss === '' ? '0' : loss), left: grams(left), weighed: grams(weighed) }
  if (typed.loss === undefined || (left !== '' && typed.left === undefined)) return undefined
  if (massG === null && typed.weighed === undefined) return undefined
  const shares = sharesOf(
    {
      kind: 'split',
      by: { kind: 'person', id: '', name: '' },
      pieces: masses as { id: string; massG: string }[],
      lossG: typed.loss,
      leftG: typed.left ?? null,
      weighedG: massG === null ? (typed.weighed ?? null) : null,
    },
    massG,
  )
  return shares.ok ? { leftG: shares.leftG } : { sentence: shares.sentence }
}

function countOf(typed: string): number {
  return /^\d{1,3}$/.test(typed.trim()) ? Number(typed.trim()) : 0
}

function grams(typed: string): string | undefined {
  const read = readTypedNumber(typed, { unit: 'g' })
  return read.ok ? read.value : undefined
}
