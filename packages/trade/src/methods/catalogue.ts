import type { MethodDeclaration } from '../procedure/declaration.ts'
import { batch } from './batch.ts'
import { binderExtraction, binderExtractionEn } from './binder-extraction.ts'
import { binderIgnition } from './binder-ignition.ts'
import { cohesionAbrasion1h, cohesionAbrasion30min, cohesionAbrasion3h } from './cohesion-abrasion.ts'
import { cohesion, cohesionEn } from './cohesion.ts'
import { coneConsistency, coneConsistencyEn } from './cone-consistency.ts'
import { loadedWheelSandAdhesion } from './loaded-wheel-sand-adhesion.ts'
import { trialMix, trialMixAtTemperature } from './trial-mix.ts'
import { wetTrackAbrasion1h, wetTrackAbrasion6d } from './wet-track-abrasion.ts'
import { wetTrackAbrasion3d } from './wet-track-abrasion-3d.ts'
import { wetTrackAbrasionEn } from './wet-track-abrasion-en.ts'
import { classificationCompatibility } from './classification-compatibility.ts'
import { compatibilityCup } from './compatibility-cup.ts'
import { loadedWheelDisplacement } from './displacement.ts'
import { shakingAbrasion } from './shaking-abrasion.ts'
import { wetStripping } from './wet-stripping.ts'

/** The methods that the product ships with, in the order in which they are listed. */
export const builtInMethods: readonly MethodDeclaration[] = [
  batch,
  wetTrackAbrasion1h,
  wetTrackAbrasion6d,
  loadedWheelSandAdhesion,
  wetTrackAbrasion3d,
  wetTrackAbrasionEn,
  cohesionAbrasion30min,
  cohesionAbrasion1h,
  cohesionAbrasion3h,
  binderIgnition,
  binderExtraction,
  binderExtractionEn,
  trialMix,
  trialMixAtTemperature,
  cohesion,
  cohesionEn,
  coneConsistency,
  coneConsistencyEn,
  wetStripping,
  compatibilityCup,
  classificationCompatibility,
  loadedWheelDisplacement,
  shakingAbrasion,
]

/** The method of a key, or undefined. */
export function methodByKey(methods: readonly MethodDeclaration[], key: string): MethodDeclaration | undefined {
  return methods.find((method) => method.key === key)
}
