import type { Method } from './methods.queries.ts'
import type { certainties } from './edition-form.ts'
import type { Parameters } from './editions.ts'

export type MethodGroup = 'batch' | 'series' | 'panel' | 'materials'
const order: readonly MethodGroup[] = ['batch', 'series', 'panel', 'materials']

/** Where a method stands among the others: before every specimen, at each content, beside the series, of the materials. */
export function groupOf({ form, place, madeFrom }: Pick<Method, 'form' | 'place' | 'madeFrom'>): MethodGroup {
  if (form === 'batch') return 'batch'
  return madeFrom === 'materials' ? 'materials' : place
}

/** The methods in their groups, each group in the order in which they ship; no group without a method. */
export function groupsOf<M extends Pick<Method, 'form' | 'place' | 'madeFrom'>>(
  methods: readonly M[],
): readonly { readonly key: MethodGroup; readonly methods: readonly M[] }[] {
  return order
    .map((key) => ({ key, methods: methods.filter((method) => groupOf(method) === key) }))
    .filter((group) => group.methods.length > 0)
}

/** How many bounds of an edition are published, common practice and from memory. */
export function certaintyCounts(parameters: Parameters): Readonly<Record<(typeof certainties)[number], number>> {
  const of = (certainty: string) => Object.values(parameters).filter((one) => one.certainty === certainty).length
  return { published: of('published'), 'common practice': of('common practice'), 'from memory': of('from memory') }
}

/** A property as people say it: "Abrasion loss, 1-hour soak". */
export function propertyName({ property, soak }: { readonly property: string; readonly soak?: string }): string {
  const words = property.replace(/-(\d+)-(min|hours?)$/, ' at $1 $2').replaceAll('-', ' ')
  const name = words.charAt(0).toUpperCase() + words.slice(1)
  return soak === undefined ? name : `${name}, ${soak} soak`
}
