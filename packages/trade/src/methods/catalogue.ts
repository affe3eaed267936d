import type { MethodDeclaration } from '../procedure/declaration.ts'
import { batch } from './batch.ts'
import { loadedWheelSandAdhesion } from './loaded-wheel-sand-adhesion.ts'
import { wetTrackAbrasion1h, wetTrackAbrasion6d } from './wet-track-abrasion.ts'

/** The methods that the product ships with, in the order in which they are listed. */
export const builtInMethods: readonly MethodDeclaration[] = [
  batch,
  wetTrackAbrasion1h,
  wetTrackAbrasion6d,
  loadedWheelSandAdhesion,
]

/** The method of a key, or undefined. */
export function methodByKey(methods: readonly MethodDeclaration[], key: string): MethodDeclaration | undefined {
  return methods.find((method) => method.key === key)
}
