import type { Mix } from '@curebook/contract/designs'
import type { Method } from '@curebook/contract/methods'
import type { EditionParameters } from '@curebook/trade/procedure/declaration'
import { askedReplicates, replicatesParameter } from '@curebook/trade/procedure/replicates'
import { digitsOf, shares } from '#features/designs/plan-rows.ts'

/** The choice of a content that is not planned yet. */
export const newContent = 'new'

/** How many tests the edition in force asks for, with its source; undefined where it names none. */
export function replicatesOf(method: Pick<Method, 'editions'> | undefined) {
  const parameters = method?.editions.find(({ inForce }) => inForce)?.parameters
  return parameters && askedReplicates(parameters as EditionParameters) !== null
    ? parameters[replicatesParameter]
    : undefined
}

/** What is sent for a plan as typed; what is no number stays as typed, for the contract to refuse beside its field. */
export function planOfTest(
  form: Pick<FormData, 'get'>,
  method: Pick<Method, 'key' | 'madeFrom'> | undefined,
  mixes: readonly Mix[],
): object {
  const text = (name: string) => String(form.get(name) ?? '').trim()
  const replicates = /^\d{1,3}$/.test(text('replicates')) ? Number(text('replicates')) : text('replicates')
  const methodKey = method?.key ?? ''
  if (method?.madeFrom !== 'batch') return { methodKey, replicates }
  const chosen = mixes.find(({ id }) => id === text('mix'))
  const content = Object.fromEntries(shares.map((share) => [share, chosen?.[share] ?? digitsOf(text(share))]))
  return { contents: [content], methods: [{ methodKey, replicates, spares: [] }] }
}

/** Errors under the name of their field: where in the plan the contract looks is no matter of the form. */
export function errorsByField(errors: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  return Object.fromEntries(Object.entries(errors).map(([path, message]) => [path.split('.').at(-1) ?? path, message]))
}
