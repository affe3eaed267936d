export type SortDirection = 'ascending' | 'descending'
export type SortKey = string | number | null | undefined

/** `?sort=code` up, `?sort=-code` down. */
export function readSort(text: string): { readonly key: string; readonly direction: SortDirection } | undefined {
  if (text === '' || text === '-') return undefined
  return text.startsWith('-') ? { key: text.slice(1), direction: 'descending' } : { key: text, direction: 'ascending' }
}

/** The next press on a column head: up, down, as the list came. */
export function nextSort(current: string, key: string): string {
  if (current === key) return `-${key}`
  return current === `-${key}` ? '' : key
}

/** A sorted copy; what has no value stands last either way, and equals keep their order. */
export function sortRows<Row>(
  rows: readonly Row[],
  keyOf: (row: Row) => SortKey,
  direction: SortDirection,
): readonly Row[] {
  const sign = direction === 'ascending' ? 1 : -1
  const missing = (key: SortKey) => key === null || key === undefined || key === ''
  return [...rows].sort((one, other) => {
    const [a, b] = [keyOf(one), keyOf(other)]
    if (missing(a) || missing(b)) return Number(missing(a)) - Number(missing(b))
    if (typeof a === 'number' && typeof b === 'number') return sign * (a - b)
    return sign * String(a).localeCompare(String(b), 'en', { numeric: true })
  })
}

/** Rows chosen after a press on `pressed`; with Shift, all between the last pressed one and this one follow it. */
export function choose(
  ids: readonly string[],
  chosen: ReadonlySet<string>,
  pressed: string,
  last: string | undefined,
  withShift: boolean,
): ReadonlySet<string> {
  const on = !chosen.has(pressed)
  const [from, to] = [ids.indexOf(last ?? pressed), ids.indexOf(pressed)]
  const span = withShift && from >= 0 ? ids.slice(Math.min(from, to), Math.max(from, to) + 1) : [pressed]
  const next = new Set(chosen)
  for (const id of span) {
    if (on) next.add(id)
    else next.delete(id)
  }
  return next
}

/** Where Shift with an arrow began: the row, and what was chosen outside the stretch that follows it. */
export type Anchor = { readonly id: string; readonly base: ReadonlySet<string> }

/** Rows chosen after Shift with an arrow has reached `to`: those before it began, and all from there to here. */
export function extend(ids: readonly string[], { id, base }: Anchor, to: string): ReadonlySet<string> {
  const [from, until] = [ids.indexOf(id), ids.indexOf(to)]
  if (from < 0 || until < 0) return base
  return new Set([...base, ...ids.slice(Math.min(from, until), Math.max(from, until) + 1)])
}
