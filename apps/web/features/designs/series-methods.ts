import type { Method } from '@curebook/contract/methods'
import type { Specification } from '@curebook/contract/specifications'
import { usualSeries } from './usual-series.ts'

type Asked = Pick<Specification['limits'][number], 'property' | 'soak'>
const usual = new Set(usualSeries.methods.map(({ methodKey }) => methodKey))

/**
 * The methods that a series is planned from, each chosen to begin with where the specification holds a property that it
 * answers. A soak outside the usual series, of a product of its own, is offered only where a limit names it.
 */
export function seriesMethods(
  methods: readonly Method[],
  limits: readonly Asked[],
): readonly { readonly method: Method; readonly chosen: boolean }[] {
  return methods.flatMap((method) => {
    const chosen = method.answers.some((answer) => limits.some((limit) => meets(answer, limit)))
    const offered = chosen || usual.has(method.key) || method.answers.every(({ soak }) => soak === undefined)
    return offered ? [{ method, chosen }] : []
  })
}

function meets(answer: Method['answers'][number], limit: Asked): boolean {
  return answer.property === limit.property && (answer.soak ?? null) === limit.soak
}
