import type { Edition } from '@curebook/contract/methods'

export type Parameter = Edition['parameters'][string]
export type Parameters = Readonly<Record<string, Parameter>>

/** The edition that an address names, else the one in force, else the newest. */
export function shownEdition(editions: readonly Edition[], named: string): Edition | undefined {
  return editions.find(({ id }) => id === named) ?? editions.find(({ inForce }) => inForce) ?? editions[0]
}

/** The edition that a change starts from: the newest made from the shown one, since nobody may fork an older one. */
export function editionToChange(editions: readonly Edition[], named: string): Edition | undefined {
  const shown = shownEdition(editions, named)
  if (shown === undefined || !shown.superseded) return shown
  return editions.find(({ editionKey, superseded }) => editionKey === shown.editionKey && !superseded) ?? shown
}

/** A bound with its key, and the built-in one where the laboratory changed it. */
export type Bound = Parameter & { readonly key: string; readonly builtIn: Parameter | undefined }

/** Built-in values by the key of their edition. */
export type BuiltIn = Readonly<Record<string, Parameters>>

/** The bounds of an edition, held against the built-in edition that it was made from and no other. */
export function boundsOf(edition: Edition, allBuiltIn: BuiltIn): readonly Bound[] {
  const builtIn = allBuiltIn[edition.editionKey] ?? {}
  return Object.entries(edition.parameters).map(([key, parameter]) => {
    const shipped = builtIn[key]
    const same = shipped !== undefined && shipped.value === parameter.value && shipped.source === parameter.source
    return { ...parameter, key, builtIn: same ? undefined : shipped }
  })
}

/** The editions that a change may start from: none that another one was made from, the one in force first. */
export function editionsToCopy(editions: readonly Edition[]): readonly Edition[] {
  const open = editions.filter(({ standing }) => standing !== 'replaced')
  return [...open.filter(({ inForce }) => inForce), ...open.filter(({ inForce }) => !inForce)]
}

/** How many bounds of an edition are the laboratory’s own. */
export function changesIn(edition: Edition, builtIn: BuiltIn): number {
  return boundsOf(edition, builtIn).filter((bound) => bound.builtIn !== undefined).length
}
