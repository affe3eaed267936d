import type { Design } from '@curebook/contract/designs'

/** A revision as it stands in the address: `<design>` for the newest, `<design>.2` for its second. */
export type Chosen = { readonly id: string; readonly revision?: number }

export function readChosen(typed: string): Chosen | null {
  const [, id, revision] = /^([0-9a-f-]{36})(?:\.([1-9]\d{0,3}))?$/.exec(typed) ?? []
  if (id === undefined) return null
  return revision === undefined ? { id } : { id, revision: Number(revision) }
}

export function writeChosen({ id, revision }: Chosen): string {
  return revision === undefined ? id : `${id}.${revision}`
}

/** From a revision to its comparison with the one before it; with the one after it from the first; of a single one, to choose. */
export function compareSearch({ id, revision, revisions }: Pick<Design, 'id' | 'revision' | 'revisions'>): string {
  const other = [revision - 1, revision + 1].find((wanted) => revisions.some(({ number }) => number === wanted))
  const [first, second] = other === undefined ? [revision] : [revision, other].sort((one, two) => one - two)
  const search = new URLSearchParams({ a: writeChosen({ id, revision: first }) })
  if (second !== undefined) search.set('b', writeChosen({ id, revision: second }))
  return search.toString()
}
