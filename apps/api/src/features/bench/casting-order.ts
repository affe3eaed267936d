import { castingOrder } from '@curebook/trade/design/casting-order'

type Castable = {
  readonly designId: string
  readonly methodKey: string
  readonly content: string
  readonly replicate: number
  readonly spare: boolean
}

/** What one design casts for one method, in the order of casting. */
export type CastingSeries<T extends Castable> = {
  readonly designId: string
  readonly methodKey: string
  readonly rows: readonly T[]
}

/** Specimens by design and method, each in blocks of its contents; the order is the design's own and always the same. */
export function castingSeriesOf<T extends Castable>(specimens: readonly T[]): readonly CastingSeries<T>[] {
  const series = new Map<string, T[]>()
  for (const specimen of specimens) {
    const key = `${specimen.designId} ${specimen.methodKey}`
    const own = series.get(key)
    if (own) own.push(specimen)
    else series.set(key, [specimen])
  }
  return [...series].map(([key, own]) => {
    const { designId, methodKey } = own[0]!
    return { designId, methodKey, rows: castingOrder(own, key) }
  })
}

export type CastPlace = { readonly methodKey: string; readonly ordinal: number; readonly of: number }

/** The place in the casting order of each batch and of each specimen's test. */
export function castPlacesOf(
  specimens: readonly (Castable & { readonly testId: string; readonly batchTestId: string })[],
): ReadonlyMap<string, CastPlace> {
  return new Map(
    castingSeriesOf(specimens).flatMap(({ methodKey, rows }) =>
      rows.flatMap(({ testId, batchTestId }, index) => {
        const place = { methodKey, ordinal: index + 1, of: rows.length }
        return [[testId, place] as const, [batchTestId, place] as const]
      }),
    ),
  )
}
