/** Parts that wear or change, and differ from lot to lot. */
export const partKinds = ['hose', 'tyre', 'felt', 'sand'] as const
export type PartKind = (typeof partKinds)[number]

/** Parts whose lots are kept, by the kind of machine that carries them; other instruments carry none. */
export const partsOfMachine: Readonly<Partial<Record<string, readonly PartKind[]>>> = {
  'wet-track-machine': ['hose', 'felt'],
  'loaded-wheel': ['tyre', 'sand'],
}
