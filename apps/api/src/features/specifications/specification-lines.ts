/** What is needed of a version to know where it stands in its line. */
export type LineRow = {
  readonly id: string
  readonly supersedesId: string | null
  readonly withdrawal: { readonly specificationId: string } | null
}
export type PlaceInLine = {
  /** The first version. */
  readonly lineId: string
  /** Counted from 1. */
  readonly version: number
  /** `withdrawn` is said of every version of a line whose newest is. */
  readonly standing: 'current' | 'superseded' | 'withdrawn'
}

/** Where each version stands: a line begins with what supersedes nothing and ends with what nothing supersedes. */
export function placesInLines(rows: readonly LineRow[]): ReadonlyMap<string, PlaceInLine> {
  const next = new Map(rows.flatMap((row) => (row.supersedesId === null ? [] : [[row.supersedesId, row] as const])))
  const places = new Map<string, PlaceInLine>()
  for (const first of rows.filter(({ supersedesId }) => supersedesId === null)) {
    const line: LineRow[] = [first]
    for (let row = next.get(first.id); row; row = next.get(row.id)) line.push(row)
    const isWithdrawn = line.some(({ withdrawal }) => withdrawal !== null)
    line.forEach(({ id }, index) => {
      const isLast = index === line.length - 1
      places.set(id, {
        lineId: first.id,
        version: index + 1,
        standing: isWithdrawn ? 'withdrawn' : isLast ? 'current' : 'superseded',
      })
    })
  }
  return places
}

/** Versions of the line that one belongs to, the oldest first. */
export function lineOf<Row extends LineRow>(rows: readonly Row[], id: string): readonly Row[] {
  const places = placesInLines(rows)
  const lineId = places.get(id)?.lineId
  return rows
    .filter((row) => lineId !== undefined && places.get(row.id)?.lineId === lineId)
    .toSorted((a, b) => (places.get(a.id)?.version ?? 0) - (places.get(b.id)?.version ?? 0))
}
