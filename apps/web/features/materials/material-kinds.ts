import type { Material } from '@curebook/contract/materials'

/** In the order in which a batch is put together. */
export const materialKinds = [
  'aggregate',
  'emulsion',
  'filler',
  'additive',
  'water',
] as const satisfies readonly Material['kind'][]
export type Kind = (typeof materialKinds)[number]

export function readKind(text: string): Kind | undefined {
  return materialKinds.find((kind) => kind === text)
}

/** Samples by kind, every kind in its place, the newest first within each. */
export function byKind(
  materials: readonly Material[],
): readonly { readonly kind: Kind; readonly rows: readonly Material[] }[] {
  return materialKinds.map((kind) => ({
    kind,
    rows: materials
      .filter((material) => material.kind === kind)
      .toSorted((one, other) => other.receivedOn.localeCompare(one.receivedOn) || other.code.localeCompare(one.code)),
  }))
}
