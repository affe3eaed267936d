import type { Edition, Method } from '@curebook/contract/methods'
import type { EditionParameters, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { dayOf } from '#platform/row-values'
import { inForceOn } from './edition-rules.ts'
import type { EditionRow } from './methods.repository.ts'
import { unitInCases } from './result-units.ts'

/** An edition as others pin it. */
export type PinnedEdition = {
  id: string
  methodKey: string
  designation: string
  parameters: EditionParameters
}

export function toPinned(edition: Edition): PinnedEdition {
  const { id, methodKey, designation, parameters } = edition
  return { id, methodKey, designation, parameters }
}

/** Editions of one method, the newest revision first, with the one in force on a day marked. */
export function toEditions(rows: readonly EditionRow[], today: string): Edition[] {
  const editions = rows.map((row): Edition => ({
    id: row.id,
    methodKey: row.methodKey,
    editionKey: row.editionKey,
    revision: row.revision,
    origin: row.origin as Edition['origin'],
    designation: row.designation,
    year: row.year,
    effectiveFrom: dayOf(row.effectiveFrom),
    reason: row.reason,
    standing: 'beside',
    inForce: false,
    superseded: row.supersededBy !== null,
    parameters: JSON.parse(row.parameters) as Edition['parameters'],
    at: row.at.toISOString(),
  }))
  const current = inForceOn(editions, today)
  return editions
    .map((edition) => ({
      ...edition,
      inForce: edition === current,
      standing: standingOf(edition, current, editions, today),
    }))
    .reverse()
}

function standingOf(
  edition: Edition,
  current: Edition | undefined,
  editions: readonly Edition[],
  today: string,
): Edition['standing'] {
  if (edition === current) return 'in-force'
  if (edition.superseded) return 'replaced'
  if (edition.effectiveFrom > today) return 'waiting'
  const shippedAgain = editions.some(
    ({ origin, editionKey, revision }) =>
      origin === 'built-in' && editionKey === edition.editionKey && revision > edition.revision,
  )
  return edition.origin === 'built-in' && shippedAgain ? 'replaced' : 'beside'
}

export function toMethod(method: MethodDeclaration, editions: Edition[]): Method {
  const { key, name, shortName, form, place, madeFrom, computation, steps, windows, answers, results } = method
  return {
    key,
    name,
    shortName,
    form,
    place,
    madeFrom,
    answers: [...answers],
    results: results.map(({ choices, unit, ...result }) => ({
      ...result,
      unit: unit ?? unitInCases(method, result.key),
      ...(choices ? { choices: [...choices] } : {}),
    })),
    computation,
    steps: [...steps],
    windows: [...windows],
    builtIn: Object.fromEntries(method.editions.map(({ key: edition, parameters }) => [edition, { ...parameters }])),
    editions,
  }
}
