import type { Found } from '@curebook/contract/search'

/** One line of the list: something found, or an act or screen to go to. */
export type SearchChoice =
  | { readonly kind: 'found'; readonly key: string; readonly path: string; readonly found: Found }
  | { readonly kind: 'go'; readonly key: string; readonly path: string; readonly label: string }
export type Going = { readonly path: string; readonly label: string }

const placeOf: Readonly<Record<Found['kind'], (id: string) => string>> = {
  specimen: (id) => `bench/tests/${id}`,
  sample: (id) => `materials/${id}`,
  project: (id) => `projects/${id}`,
  design: (id) => `designs/${id}`,
  person: () => 'people',
}

/** What begins things, and the action that each needs. */
export const acts = [
  { key: 'project', path: 'projects/new', needs: 'project:create' },
  { key: 'design', path: 'designs/new', needs: 'design:create' },
  { key: 'sample', path: 'materials/new', needs: 'material:create' },
  { key: 'instrument', path: 'instruments/new', needs: 'instrument:create' },
  { key: 'compare', path: 'designs/compare', needs: 'range:read' },
] as const

/** What was found, then the screens and acts whose name has every word typed. */
export function choicesOf(typed: string, found: readonly Found[], going: readonly Going[]): readonly SearchChoice[] {
  const wanted = typed.trim().toLowerCase().split(/\s+/)
  const goes = going.filter(({ label }) => wanted.every((word) => label.toLowerCase().includes(word)))
  return [
    ...found.map((one): SearchChoice => ({
      kind: 'found',
      key: `${one.kind}-${one.id}`,
      path: placeOf[one.kind](one.id),
      found: one,
    })),
    ...goes.map((one): SearchChoice => ({ kind: 'go', key: `go-${one.path}`, ...one })),
  ]
}

/** The place in the list after a key: around its ends; none of an empty list. */
export function nextPlace(key: string, at: number, count: number): number {
  if (count === 0) return 0
  if (key === 'ArrowDown') return (at + 1) % count
  if (key === 'ArrowUp') return (at - 1 + count) % count
  return Math.min(at, count - 1)
}
