import type { BuiltInSpecification, Limit, Specification } from '@curebook/contract/specifications'
import type { Method } from './methods.queries.ts'

/** A limit that a method answers, with the specifications that hold it. */
export type AnsweredLimit = { readonly id: string; readonly limit: Limit; readonly holders: readonly Holder[] }

export type Holder = {
  readonly name: string
  /** One of the laboratory's own, with its version. */
  readonly version: number | null
  readonly aggregateTypes: readonly string[]
  /** Empty where it is held for every traffic class of the specification. */
  readonly traffics: readonly string[]
}

type Held = {
  readonly limits: readonly Limit[]
  readonly name: string
  readonly version: number | null
  readonly aggregateType: string
  readonly traffic: string
  /** How many traffic classes the specification knows. */
  readonly classes: number
}

/**
 * The limits of the built-in specifications and of the laboratory's own current ones that a method answers. What reads the
 * same and is from the same source stands once, with everybody who holds it.
 */
export function limitsAnswered(
  answers: Method['answers'],
  builtIn: readonly BuiltInSpecification[],
  own: readonly Specification[],
): readonly AnsweredLimit[] {
  const held: readonly Held[] = [
    ...builtIn.flatMap(({ name, variants, traffics }) =>
      variants.map((variant) => ({ ...variant, name, version: null, classes: traffics.length })),
    ),
    ...own.filter(({ standing }) => standing === 'current').map((one) => ({ ...one, classes: 0 })),
  ]
  return answers.flatMap(({ property, soak }) => {
    const found = new Map<string, { limit: Limit; by: Held[] }>()
    for (const one of held)
      for (const limit of one.limits)
        if (limit.property === property && limit.soak === (soak ?? null)) {
          const row = found.get(textOf(limit)) ?? { limit, by: [] }
          row.by.push(one)
          found.set(textOf(limit), row)
        }
    return [...found].map(([id, { limit, by }]) => ({ id, limit, holders: holdersOf(by) }))
  })
}

function textOf({ label, sense, value, upper, unit, condition, source, clause }: Limit): string {
  return JSON.stringify([label, sense, value, upper, unit, condition, source, clause])
}

function holdersOf(held: readonly Held[]): readonly Holder[] {
  const names = [...new Set(held.map(({ name, version }) => `${name} ${version}`))]
  return names.map((name) => {
    const own = held.filter((one) => `${one.name} ${one.version}` === name)
    const traffics = [...new Set(own.map(({ traffic }) => traffic))]
    return {
      name: own[0]!.name,
      version: own[0]!.version,
      aggregateTypes: [...new Set(own.map(({ aggregateType }) => aggregateType))],
      traffics: traffics.length === own[0]!.classes ? [] : traffics,
    }
  })
}
